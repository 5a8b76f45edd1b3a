package rampwright.analysis.figure;

import rampwright.analysis.quantity.Measured;

/**
 * Full speed without a speed channel: the steepest lasting fall of current after its peak.
 *
 * <p>How far that lies from the 95 % instant was measured on traces that have speed (the module's
 * {@code docs/figures.md} has the table); it is carried as the rule's uncertainty.
 */
final class CurrentFall {
  private static final double WINDOW_S = 0.2;

  /** Standard uncertainty of the rule: this share of the time from the fall's edges. */
  static final double RULE_SHARE = 0.5;

  private CurrentFall() {}

  static Measured fullSpeed(Readings r, Segment segment, RunLevel level) {
    RunState run = segment.run();
    if (run == null) {
      return Measured.missing("s", "full speed was not reached");
    }
    int first = segment.flow().first();
    int end = Math.min(r.t.length, r.firstAtOrAfter(level.toS()));
    int peakK = first;
    for (int k = first; k <= run.first() && k < end; k++) {
      // The last reading near the peak: a limited start has a flat top.
      if (r.high[k] >= 0.97 * r.high[peakK]) {
        peakK =
            r.high[k] > r.high[peakK] || r.high[k] >= 0.97 * max(r, first, run.first()) ? k : peakK;
      }
    }
    int width = Math.max(5, (int) Math.round(WINDOW_S / r.stepS));
    double steepest = 0;
    double atS = Double.NaN;
    for (int k = peakK; k + width <= end; k++) {
      Line line = Line.through(r.t, r.high, k, k + width);
      if (line.slope() < steepest) {
        steepest = line.slope();
        atS = line.middleS();
      }
    }
    if (atS != atS) {
      return Measured.missing(
          "s", "no speed channel, and the current does not fall after its peak");
    }
    double lagS = r.isWaveform() ? r.stepS : 0;
    double kneeS = r.t[run.first()];
    double spreadS = Math.max(kneeS - atS, atS - r.t[peakK]);
    double u = Math.hypot(r.stepS, RULE_SHARE * Math.max(spreadS, 0));
    return StartInstants.instant(
        atS - lagS, u, "current fall: steepest lasting fall of current after its peak");
  }

  private static double max(Readings r, int from, int to) {
    double max = 0;
    for (int k = from; k <= to && k < r.high.length; k++) {
      if (r.high[k] > max) {
        max = r.high[k];
      }
    }
    return max;
  }
}
