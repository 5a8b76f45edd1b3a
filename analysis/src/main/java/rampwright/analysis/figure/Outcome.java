package rampwright.analysis.figure;

/** How a start ended. */
public enum Outcome {
  ALREADY_RUNNING("already running"),
  COMPLETED("completed"),
  STALLED("stalled"),
  ABORTED("aborted"),
  CUT_OFF("cut off");

  private final String key;

  Outcome(String key) {
    this.key = key;
  }

  /** Word used on screens and in JSON. */
  public String key() {
    return key;
  }
}
