package rampwright.analysis.machine;

import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * A pipe fed by a pump, for surge.
 *
 * @param lengthM length, m
 * @param waveSpeedMPerS pressure-wave speed, m/s
 * @param velocityMPerS flow velocity before the stop, m/s
 * @param head of the pump and the lift; null when not known
 */
public record Pipe(
    double lengthM, double waveSpeedMPerS, double velocityMPerS, @Nullable PipeHead head) {
  private static final double WATER_KG_M3 = 1000.0;
  private static final double GRAVITY_M_S2 = 9.80665;
  private static final double PA_PER_BAR = 1e5;

  public Pipe {
    if (!(lengthM > 0 && waveSpeedMPerS > 0 && velocityMPerS >= 0)) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT,
              "pipe: length %s m and wave speed %s m/s must be above zero, velocity %s m/s not"
                  + " negative",
              lengthM,
              waveSpeedMPerS,
              velocityMPerS));
    }
  }

  /** A pipe whose heads are not known. */
  public Pipe(double lengthM, double waveSpeedMPerS, double velocityMPerS) {
    this(lengthM, waveSpeedMPerS, velocityMPerS, null);
  }

  /** Time for a wave to the end and back, s: 2 L / a. */
  public double periodS() {
    return 2 * lengthM / waveSpeedMPerS;
  }

  /**
   * Pressure rise if the flow stopped at once, Pa: rho a v (Joukowsky), an upper bound for any stop
   * faster than one pipe period and for slower ones without column separation.
   */
  public double joukowskyPa() {
    return joukowskyPa(WATER_KG_M3);
  }

  /** The same for another density, kg/m3. */
  public double joukowskyPa(double densityKgM3) {
    return densityKgM3 * waveSpeedMPerS * velocityMPerS;
  }

  /** The same in bar, water. */
  public double joukowskyBar() {
    return joukowskyPa() / PA_PER_BAR;
  }

  /** The same as head of the liquid, m: a v / g. */
  public double joukowskyHeadM() {
    return waveSpeedMPerS * velocityMPerS / GRAVITY_M_S2;
  }

  /**
   * Pressure rise of a stop in a given time, Pa: the Joukowsky rise up to one pipe period, beyond
   * it the rigid column's rho L v / t (Michaud), never above Joukowsky.
   */
  public double risePa(double stopS) {
    double full = joukowskyPa();
    return stopS <= periodS() ? full : full * periodS() / stopS;
  }
}
