package rampwright.analysis.figure;

import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What a person decides about an analysis.
 *
 * @param corrected instants a person put right, by key ({@code full_speed_s}), s on the trace's
 *     time base; they replace what was found in the start whose current they lie about and are
 *     marked as corrected in the rule
 * @param correctionReason why; empty when nothing was corrected
 * @param thresholds the numbers findings are judged by
 * @param limit the current limit the trial was made with; null when it is not known
 */
public record AnalysisOptions(
    Map<String, Double> corrected,
    String correctionReason,
    Thresholds thresholds,
    @Nullable CurrentLimit limit) {
  public AnalysisOptions {
    corrected = Map.copyOf(corrected);
  }

  /** Nothing corrected, default thresholds. */
  public static final AnalysisOptions DEFAULT =
      new AnalysisOptions(Map.of(), "", Thresholds.DEFAULT, null);
}
