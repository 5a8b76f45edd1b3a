package rampwright.analysis.machine;

import java.util.Locale;

/**
 * A supply as a source behind an impedance, star equivalent, per phase.
 *
 * @param resistanceOhm resistance, ohm
 * @param reactanceOhm reactance, ohm
 */
public record Supply(double resistanceOhm, double reactanceOhm) {
  /** X/R of a low-voltage supply when nothing is said of it; common practice, no source. */
  public static final double USUAL_X_OVER_R = 4.0;

  /** Nothing in between. */
  public static final Supply NONE = new Supply(0, 0);

  public Supply {
    if (!(resistanceOhm >= 0 && reactanceOhm >= 0)) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT,
              "supply: resistance %s ohm and reactance %s ohm may not be negative",
              resistanceOhm,
              reactanceOhm));
    }
  }

  /** A supply of an impedance's magnitude and X/R. */
  public static Supply ofImpedance(double magnitudeOhm, double xOverR) {
    double r = magnitudeOhm / Math.hypot(1, xOverR);
    return new Supply(r, r * xOverR);
  }

  /**
   * From the three-phase fault level: Z = V^2 / S.
   *
   * @param voltageV line to line
   * @param faultLevelVa three-phase fault level, VA
   */
  public static Supply ofFaultLevel(double voltageV, double faultLevelVa, double xOverR) {
    return ofImpedance(voltageV * voltageV / faultLevelVa, xOverR);
  }

  /**
   * From a transformer on a stiff supply: Z = z V^2 / S.
   *
   * @param voltageV line to line, secondary
   * @param ratedVa transformer rating, VA
   * @param impedance short-circuit impedance, of one
   */
  public static Supply ofTransformer(
      double voltageV, double ratedVa, double impedance, double xOverR) {
    return ofImpedance(impedance * voltageV * voltageV / ratedVa, xOverR);
  }

  /** Two impedances in series, for example a transformer and its source, or a cable. */
  public Supply plus(Supply other) {
    return new Supply(resistanceOhm + other.resistanceOhm, reactanceOhm + other.reactanceOhm);
  }

  /** Three-phase fault level at a line voltage, VA. */
  public double faultLevelVa(double voltageV) {
    return voltageV * voltageV / Math.hypot(resistanceOhm, reactanceOhm);
  }

  /**
   * Share of the source voltage left at a constant impedance behind this supply: |Zm / (Zm + Zs)|.
   *
   * @param loadOhm magnitude of the load's impedance per phase
   * @param loadPowerFactor its power factor, lagging
   */
  public double retainedShare(double loadOhm, double loadPowerFactor) {
    double r = loadOhm * loadPowerFactor;
    double x = loadOhm * Math.sqrt(1 - loadPowerFactor * loadPowerFactor);
    return loadOhm / Math.hypot(r + resistanceOhm, x + reactanceOhm);
  }
}
