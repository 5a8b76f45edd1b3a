package rampwright.app.chart;

import rampwright.analysis.signal.RmsTrack;

/**
 * One trial among others in a chart, brought to a common time by its inception.
 *
 * @param label short name in the legend
 * @param note outcome or settings, in the legend; may be empty
 * @param track RMS values
 * @param inceptionS instant that becomes time 0, on the trace's time base
 * @param stopBeginS instant of the stop order on the same time base; NaN when none was seen
 * @param rated nameplate numbers
 */
public record TrialCurve(
    String label, String note, RmsTrack track, double inceptionS, double stopBeginS, Rated rated) {
  /** A trial whose stop nobody saw. */
  public TrialCurve(String label, String note, RmsTrack track, double inceptionS, Rated rated) {
    this(label, note, track, inceptionS, Double.NaN, rated);
  }

  public TrialCurve {
    if (!Double.isFinite(inceptionS)) {
      throw new IllegalArgumentException("trial " + label + ": inception at " + inceptionS + " s");
    }
  }
}
