package rampwright.analysis.machine;

import java.util.Locale;

/**
 * Heads of a pump at its usual flow: what it lifts and what it lifts in all.
 *
 * @param staticM height from water level to water level, with any difference of pressure, m
 * @param totalM head the pump gives at its usual flow and rated speed, m; the rest is friction
 */
public record PipeHead(double staticM, double totalM) {
  private static final double GRAVITY_M_S2 = 9.80665;

  public PipeHead {
    if (!(totalM > 0 && staticM >= 0 && staticM <= totalM)) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT,
              "pipe: total head %s m must be above zero and no less than the static head %s m",
              totalM,
              staticM));
    }
  }

  /** Static head over total head, 0 to 1: {@link WaterColumn#staticShare}. */
  public double staticShare() {
    return staticM / totalM;
  }

  /**
   * Inertia time of the water in a pipe, s: L v / (g H), the time in which the head alone would
   * bring the water from rest to its usual velocity ({@link WaterColumn#inertiaS}).
   *
   * <p>Source: momentum of a rigid column; the establishment of flow, e.g. Streeter, Wylie and
   * Bedford, Fluid Mechanics (from memory).
   */
  public double inertiaS(double lengthM, double velocityMPerS) {
    return lengthM * velocityMPerS / (GRAVITY_M_S2 * totalM);
  }
}
