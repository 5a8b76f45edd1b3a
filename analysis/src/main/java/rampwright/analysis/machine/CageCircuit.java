package rampwright.analysis.machine;

import java.util.Locale;

/**
 * Double-cage equivalent circuit of an induction motor, star equivalent, one phase.
 *
 * <p>Formula: Z2(s) = (ra/s + j xa) in parallel with (rb/s + j xb); Z = r1 + j x1 + (j xm in
 * parallel with Z2); air-gap power P = |I2|^2 Re Z2; torque = P / synchronous speed.
 *
 * <p>Symbols: r1, x1 stator resistance and leakage reactance; xm magnetising reactance; ra, xa
 * inner (running) cage; rb, xb outer (starting) cage; all referred to the stator, all in one unit
 * (ohm, or per unit of the base impedance); s slip of synchronous speed.
 *
 * <p>Valid: fundamental frequency, steady state at each slip, no saturation, no iron loss. A single
 * cage is the case of rb and xb infinite ({@link #singleCage}). Electrical transients are left out,
 * which makes rotor heat of a direct-on-line start 9 to 18 % low (module docs, machine.md).
 *
 * <p>Source: any machine text, e.g. Fitzgerald, Kingsley, Umans, Electric Machinery, ch. 6. Checked
 * by: CageCircuitReferenceTest.
 */
public record CageCircuit(
    double r1, double x1, double xm, double ra, double xa, double rb, double xb) {

  public CageCircuit {
    double[] all = {r1, x1, xm, ra, xa, rb, xb};
    for (double part : all) {
      if (!(part >= 0)) {
        throw new IllegalArgumentException(
            String.format(
                Locale.ROOT,
                "circuit: r1 %s, x1 %s, xm %s, ra %s, xa %s, rb %s, xb %s; none may be negative",
                r1,
                x1,
                xm,
                ra,
                xa,
                rb,
                xb));
      }
    }
  }

  /** A circuit with one rotor cage of resistance r2 and leakage reactance x2. */
  public static CageCircuit singleCage(double r1, double x1, double xm, double r2, double x2) {
    return new CageCircuit(r1, x1, xm, r2, x2, Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY);
  }

  /**
   * What the circuit does at a slip, for one volt (or per unit) of phase voltage.
   *
   * @param admittance magnitude of stator current over voltage
   * @param powerFactor of the stator current
   * @param airGapPower per phase, over voltage squared
   * @param rotorCurrent magnitude of the total rotor current over voltage
   */
  public record Point(
      double admittance, double powerFactor, double airGapPower, double rotorCurrent) {}

  /**
   * The operating point at a slip.
   *
   * @param slip of synchronous speed; below 1e-6 it is taken as 1e-6
   */
  public Point at(double slip) {
    double s = Math.max(slip, 1e-6);
    // Rotor admittance: the sum of the two cages' admittances.
    double pa = ra / s;
    double da = pa * pa + xa * xa;
    double g2 = pa / da;
    double b2 = -xa / da;
    if (rb < 1e12 && xb < 1e12) {
      double pb = rb / s;
      double db = pb * pb + xb * xb;
      g2 += pb / db;
      b2 -= xb / db;
    }
    // Air-gap branch: rotor and magnetising admittance, then its impedance.
    double bg = b2 - 1.0 / xm;
    double dg = g2 * g2 + bg * bg;
    double rg = g2 / dg;
    double xg = -bg / dg;
    double r = r1 + rg;
    double x = x1 + xg;
    double z2 = r * r + x * x;
    double y = 1.0 / Math.sqrt(z2);
    // Air-gap power: current squared times the real part of the branch (xm takes none).
    return new Point(y, r * y, rg / z2, y * Math.sqrt((g2 * g2 + b2 * b2) / dg));
  }

  /** Slip of largest torque below the given slip, by golden-section search in log slip. */
  public double breakdownSlip(double largestSlip) {
    double golden = (Math.sqrt(5.0) - 1.0) / 2.0;
    double low = Math.log(1e-4);
    double high = Math.log(largestSlip);
    double left = high - golden * (high - low);
    double right = low + golden * (high - low);
    while (high - low > 1e-9) {
      if (at(Math.exp(left)).airGapPower() > at(Math.exp(right)).airGapPower()) {
        high = right;
        right = left;
        left = high - golden * (high - low);
      } else {
        low = left;
        left = right;
        right = low + golden * (high - low);
      }
    }
    return Math.exp(0.5 * (low + high));
  }
}
