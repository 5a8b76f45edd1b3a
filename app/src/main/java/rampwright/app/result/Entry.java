package rampwright.app.result;

/** What became of one of many trials. */
public sealed interface Entry permits TrialResult, NotedTrial, FailedTrial {
  /** The file it came from, as the person gave it. */
  String file();
}
