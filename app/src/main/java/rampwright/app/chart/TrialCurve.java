package rampwright.app.chart;

import rampwright.analysis.signal.RmsTrack;

/**
 * One trial among others in a chart, brought to a common time by its inception.
 *
 * @param label short name in the legend
 * @param note outcome or settings, in the legend; may be empty
 * @param track RMS values
 * @param inceptionS instant that becomes time 0, on the trace's time base
 * @param rated nameplate numbers
 */
public record TrialCurve(
    String label, String note, RmsTrack track, double inceptionS, Rated rated) {
  public TrialCurve {
    if (!Double.isFinite(inceptionS)) {
      throw new IllegalArgumentException("trial " + label + ": inception at " + inceptionS + " s");
    }
  }
}
