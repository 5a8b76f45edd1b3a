package rampwright.analysis.figure;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.TraceKind;

/**
 * Everything that was found in one trace.
 *
 * @param kind whether the trace holds a waveform or RMS readings
 * @param kindReason how that was found out, in words
 * @param rateHz samples a second (median interval)
 * @param frequencyHz supply frequency: tracked on waveforms, else the nameplate's; null if neither
 * @param durationS length of the record
 * @param harmonics harmonic currents during each start, by start number then order; percent of the
 *     fundamental, median and largest; empty where the trace cannot tell
 * @param starts the starts in time order
 * @param findings what else the trace shows, in time order
 */
public record TraceFigures(
    TraceKind kind,
    String kindReason,
    double rateHz,
    @Nullable Double frequencyHz,
    double durationS,
    List<Map<Integer, HarmonicShare>> harmonics,
    List<StartRecord> starts,
    List<Finding> findings) {
  public TraceFigures {
    harmonics = List.copyOf(harmonics);
    starts = List.copyOf(starts);
    findings = List.copyOf(findings);
  }

  /** A harmonic's share of the fundamental over a start, percent: median and largest. */
  public record HarmonicShare(double medianPct, double largestPct) {}
}
