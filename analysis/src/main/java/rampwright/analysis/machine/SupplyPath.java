package rampwright.analysis.machine;

/**
 * The way from a stiff source to a starter: source or transformer up to a busbar, a cable from
 * there to the starter.
 *
 * @param source up to the busbar
 * @param cable from the busbar to the starter
 */
public record SupplyPath(Supply source, Supply cable) {
  /**
   * Power factor of a motor from standstill to well up its run-up, over which drops of resistance
   * and reactance are weighed: common practice, no source (0.2 to 0.4 direct on line, more as it
   * comes up).
   */
  public static final double STARTING_POWER_FACTOR = 0.35;

  /**
   * Share of the drop at the starter that also reaches the busbar: the drops of one current, I (R
   * cos phi + X sin phi) each, the usual approximation of IEC 60364-5-52 (from memory). It leaves
   * out the turn of the voltage, which for dips up to 15 % is worth less than a twentieth of the
   * share.
   *
   * @param powerFactor of the current, lagging, above 0 to 1
   */
  public double busbarShare(double powerFactor) {
    double upToBusbar = drop(source, powerFactor);
    double whole = upToBusbar + drop(cable, powerFactor);
    return whole > 0 ? upToBusbar / whole : 1;
  }

  /**
   * Magnitude, ohm, of an impedance of the usual X/R that drops as much at starting power factor as
   * source and cable do. A thin cable is mostly resistance, which drops less of a starting current
   * than its magnitude says.
   */
  public double likeImpedanceOhm() {
    Supply unit = Supply.ofImpedance(1, Supply.USUAL_X_OVER_R);
    return drop(source.plus(cable), STARTING_POWER_FACTOR) / drop(unit, STARTING_POWER_FACTOR);
  }

  private static double drop(Supply part, double powerFactor) {
    return part.resistanceOhm() * powerFactor
        + part.reactanceOhm() * Math.sqrt(1 - powerFactor * powerFactor);
  }
}
