package rampwright.analysis.figure;

import rampwright.analysis.quantity.Measured;

/**
 * Full speed without a speed channel or a model: where the highest phase last falls through Irun +
 * 0.3 (Ipeak - Irun).
 *
 * <p>Why not the steepest fall: behind a torque or voltage ramp the current falls steepest when the
 * shaft breaks away or the pump's curve dips, seconds before full speed. On the traces that have
 * speed the current at 95 % of run speed lay at 0.13 to 0.79 of that way, median 0.36; the last
 * fall through 0.3 was off by a median of 1 % of the start time, the steepest fall by up to its
 * whole length (the module's {@code docs/figures.md} has the table). The uncertainty is half the
 * time between the last falls through 0.5 and 0.15, and 2.5 % of the start time besides.
 */
final class CurrentFall {
  private static final double WAY = 0.3;
  private static final double WAY_EARLY = 0.5;
  private static final double WAY_LATE = 0.15;
  private static final double RULE = 0.025;

  private CurrentFall() {}

  static Measured fullSpeed(Readings r, Segment segment, RunLevel level) {
    RunState run = segment.run();
    if (run == null) {
      return Measured.missing("s", "full speed was not reached");
    }
    Double settled = level.currentA().value();
    double runA = settled != null ? settled : run.levelA();
    int first = segment.flow().first();
    int end = Math.min(r.t.length, r.firstAtOrAfter(segment.runEndS())) - 1;
    double peakA = 0;
    for (int k = first; k <= end; k++) {
      if (r.high[k] > peakA) {
        peakA = r.high[k];
      }
    }
    double atS = lastFallS(r, first, end, runA + WAY * (peakA - runA));
    if (Double.isNaN(atS)) {
      return Measured.missing(
          "s", "no speed channel, and the current does not fall to its run value");
    }
    double earlyS = lastFallS(r, first, end, runA + WAY_EARLY * (peakA - runA));
    double lateS = lastFallS(r, first, end, runA + WAY_LATE * (peakA - runA));
    double tookS = atS - segment.flow().fromS();
    double u = Math.hypot(0.5 * Math.max(0, lateS - earlyS), Math.hypot(r.stepS, RULE * tookS));
    double lagS = r.isWaveform() ? r.stepS : 0;
    return StartInstants.instant(
        atS - lagS, u, "current fall: highest phase last falls through Irun + 0.3 (Ipeak - Irun)");
  }

  private static double lastFallS(Readings r, int first, int end, double levelA) {
    for (int k = end - 1; k >= first; k--) {
      if (r.high[k] > levelA) {
        double next = r.high[k + 1];
        double share = next < r.high[k] ? (r.high[k] - levelA) / (r.high[k] - next) : 1;
        return r.t[k] + Math.max(0, Math.min(1, share)) * (r.t[k + 1] - r.t[k]);
      }
    }
    return Double.NaN;
  }
}
