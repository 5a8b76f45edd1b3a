package rampwright.app.result;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.figure.Finding;
import rampwright.analysis.figure.TraceFigures;
import rampwright.analysis.heat.HeatStretch;
import rampwright.app.asset.AssetFile;
import rampwright.app.asset.TrialFile;
import rampwright.app.envelope.Verdict;

/**
 * One trace with everything that was found in it.
 *
 * @param file the trace file as the person gave it
 * @param facts what the file held
 * @param asset the motor circuit; null when none was named
 * @param trial settings and a person's notes
 * @param figures what was found
 * @param verdicts one for each start, in their order; empty when there is no envelope
 * @param toolVersion version of this program
 * @param remarks what a person should know about how this came about; one line each
 * @param heat what the trace adds to the asset's heat account; null without an asset or current
 */
public record TrialResult(
    String file,
    TraceFacts facts,
    @Nullable AssetFile asset,
    TrialFile trial,
    TraceFigures figures,
    List<Verdict> verdicts,
    String toolVersion,
    List<String> remarks,
    @Nullable HeatStretch heat)
    implements Entry {
  public TrialResult {
    verdicts = List.copyOf(verdicts);
    remarks = List.copyOf(remarks);
    if (!verdicts.isEmpty() && verdicts.size() != figures.starts().size()) {
      throw new IllegalArgumentException(
          verdicts.size() + " verdicts for " + figures.starts().size() + " starts");
    }
  }

  /** A trial that says nothing of heat. */
  public TrialResult(
      String file,
      TraceFacts facts,
      @Nullable AssetFile asset,
      TrialFile trial,
      TraceFigures figures,
      List<Verdict> verdicts,
      String toolVersion,
      List<String> remarks) {
    this(file, facts, asset, trial, figures, verdicts, toolVersion, remarks, null);
  }

  /** The verdict that speaks for the trace: the worst of its starts'; null where there is none. */
  public @Nullable Verdict worst() {
    Verdict worst = null;
    for (Verdict verdict : verdicts) {
      if (worst == null || rank(verdict) > rank(worst)) {
        worst = verdict;
      }
    }
    return worst;
  }

  private static int rank(Verdict verdict) {
    if (verdict instanceof Verdict.Missed) {
      return 2;
    }
    return verdict instanceof Verdict.NotAssessable ? 1 : 0;
  }

  /** The same with other findings. */
  public TrialResult withFindings(List<Finding> findings) {
    TraceFigures other =
        new TraceFigures(
            figures.kind(),
            figures.kindReason(),
            figures.rateHz(),
            figures.frequencyHz(),
            figures.durationS(),
            figures.harmonics(),
            figures.starts(),
            findings);
    return new TrialResult(file, facts, asset, trial, other, verdicts, toolVersion, remarks, heat);
  }

  /** The same with one more remark. */
  public TrialResult withRemark(String remark) {
    List<String> more = new ArrayList<>(remarks);
    more.add(remark);
    return new TrialResult(file, facts, asset, trial, figures, verdicts, toolVersion, more, heat);
  }
}
