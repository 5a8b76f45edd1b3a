package rampwright.analysis.heat;

/**
 * First-order heating and cooling of one body, as overload protection reckons it.
 *
 * <p>Formula: dL/dt = (T - L) / tau, target T = (I / (k Ib))^2; hence L(t) = T + (L0 - T) exp(-t /
 * tau). Symbols: L level, of the level that trips; T target; I current and Ib basic current, in one
 * unit; k factor of the basic current that is just carried for ever; tau time constant, s.
 *
 * <p>Source: IEC 60255-149:2013 (earlier 60255-8), thermal equation (from memory). Checked by:
 * ThermalEquationReferenceTest.
 */
public final class ThermalEquation {
  private ThermalEquation() {}

  /** Level after a time at a constant target. */
  public static double level(double from, double target, double timeS, double timeConstantS) {
    return target + (from - target) * Math.exp(-timeS / timeConstantS);
  }

  /**
   * Time to the limit.
   *
   * <p>Formula: t = tau ln((I^2 - Ip^2) / (I^2 - (k Ib)^2)), currents over the basic current.
   *
   * @param current over the basic current
   * @param before steady current before, over the basic current; 0 from cold
   * @return positive infinity when the current never trips ({@code current <= k}); 0 when the limit
   *     was reached before
   */
  public static double tripTimeS(double current, double before, double k, double timeConstantS) {
    if (before >= k) {
      return 0;
    }
    if (current <= k) {
      return Double.POSITIVE_INFINITY;
    }
    return timeConstantS
        * Math.log((current * current - before * before) / (current * current - k * k));
  }

  /** Time constant of a body that trips from cold after a time at a current above k. */
  public static double timeConstantS(double current, double k, double tripTimeS) {
    return tripTimeS / Math.log(current * current / (current * current - k * k));
  }

  /**
   * Time a body without current takes to cool from one level to another.
   *
   * <p>Formula: t = tau ln(L0 / L).
   *
   * @return 0 when it is there already; positive infinity for a level of 0 or below
   */
  public static double coolingTimeS(double from, double to, double timeConstantS) {
    if (from <= to) {
      return 0;
    }
    return to <= 0 ? Double.POSITIVE_INFINITY : timeConstantS * Math.log(from / to);
  }

  /**
   * Level just before each of endlessly repeated starts.
   *
   * <p>Formula: d e / (1 - e), e = exp(-t / tau); d the level one start adds, t the rest between.
   */
  public static double repeatedLevel(double added, double restS, double timeConstantS) {
    double left = Math.exp(-restS / timeConstantS);
    return added * left / (1 - left);
  }

  /**
   * Least rest between endlessly repeated starts that keeps the level after each at the limit.
   *
   * <p>Formula: d / (1 - e) = 1, hence t = -tau ln(1 - d).
   *
   * @return positive infinity when one start takes the whole allowance
   */
  public static double repeatedRestS(double added, double timeConstantS) {
    return added >= 1 ? Double.POSITIVE_INFINITY : -timeConstantS * Math.log1p(-added);
  }
}
