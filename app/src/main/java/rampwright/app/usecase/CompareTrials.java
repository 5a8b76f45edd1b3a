package rampwright.app.usecase;

import java.nio.file.Path;
import java.util.List;
import rampwright.app.result.Batch;
import rampwright.app.result.TrialResult;

/** Holds trials against their envelopes. */
public final class CompareTrials {
  private final AnalyzeTraces analyze;

  public CompareTrials(AnalyzeTraces analyze) {
    this.analyze = analyze;
  }

  /**
   * Analyses what was named and makes sure that there is an envelope to compare with.
   *
   * @throws UsageProblem when a trial has no envelope, with what to do
   */
  public Batch run(List<Path> named, InputChoice choice, Progress progress)
      throws UsageProblem, InterruptedException {
    Batch batch = analyze.run(named, choice, false, progress);
    for (TrialResult result : batch.results()) {
      if (result.asset() == null) {
        throw new UsageProblem(
            result.file()
                + ": there is nothing to compare with; name the asset with --asset FILE, or name two"
                + " traces to set side by side");
      }
      if (result.asset().asset().envelope().isEmpty()) {
        throw new UsageProblem(
            result.asset().path()
                + ": has no [envelope] to compare with; add one, for example [envelope]"
                + " peak_current_ratio = { max = 3.5 }, or name two traces to set side by side");
      }
    }
    return batch;
  }
}
