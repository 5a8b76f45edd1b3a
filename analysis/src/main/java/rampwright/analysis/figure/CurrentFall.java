package rampwright.analysis.figure;

import rampwright.analysis.quantity.Measured;

/**
 * Full speed without a speed channel or a model: where the highest phase last falls through Irun +
 * 0.3 (Ipeak - Irun) before it first stays at its run value.
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
    Arrival arrival = Arrival.of(r, segment, run, level);
    double atS = arrival.lastFallS(r.t, arrival.atShare(WAY));
    if (Double.isNaN(atS)) {
      return Measured.missing(
          "s", "no speed channel, and the current does not fall to its run value");
    }
    double earlyS = arrival.lastFallS(r.t, arrival.atShare(WAY_EARLY));
    double lateS = arrival.lastFallS(r.t, arrival.atShare(WAY_LATE));
    double tookS = atS - segment.flow().fromS();
    double u = Math.hypot(0.5 * Math.max(0, lateS - earlyS), Math.hypot(r.stepS, RULE * tookS));
    double lagS = r.isWaveform() ? r.stepS : 0;
    return StartInstants.instant(
        atS - lagS, u, "current fall: highest phase last falls through Irun + 0.3 (Ipeak - Irun)");
  }
}
