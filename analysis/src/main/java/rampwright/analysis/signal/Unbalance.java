package rampwright.analysis.signal;

/**
 * How unequal three magnitudes are, by two measures that must not be held against one limit: for
 * small unbalance the ratio of sequences lies between 1 and 1.155 times the largest deviation.
 *
 * <p>Checked: UnbalanceReferenceTest.
 */
public final class Unbalance {
  private Unbalance() {}

  /**
   * Largest deviation from the mean, as a share of the mean.
   *
   * <p>Formula: max |X_i - mean| / mean.
   *
   * <p>Valid: magnitudes >= 0 (line-to-line voltages by the standard; line currents are common
   * practice). NaN when all are 0 or one is NaN.
   *
   * <p>Source: NEMA MG 1, 12.45 and 14.36 (clauses from memory).
   */
  public static double maxDeviationShare(double first, double second, double third) {
    check(first, second, third);
    double mean = (first + second + third) / 3;
    double largest =
        Math.max(Math.abs(first - mean), Math.max(Math.abs(second - mean), Math.abs(third - mean)));
    return mean == 0 ? Double.NaN : largest / mean;
  }

  /**
   * Negative over positive sequence from three magnitudes whose phasors add to zero: line-to-line
   * voltages, or currents of a three-wire circuit.
   *
   * <p>Formula: u2 = sqrt((1 - r)/(1 + r)), r = sqrt(3 - 6 b), b = (X1^4 + X2^4 + X3^4)/(X1^2 +
   * X2^2 + X3^2)^2.
   *
   * <p>Valid: magnitudes that close a triangle, which gives 1/3 <= b <= 1/2; a negative sequence
   * smaller than the positive (it cannot tell which of the two is which). Rewritten so that no
   * digits are lost near balance. NaN when no triangle closes (off by more than rounding), all are
   * 0 or one is NaN.
   *
   * <p>Source: IEC 61000-4-30, 5.7.1 (clause from memory).
   */
  public static double negativeShare(double first, double second, double third) {
    check(first, second, third);
    double a = first * first;
    double b = second * second;
    double c = third * third;
    double sum = a + b + c;
    // 3 - 6 beta without the difference of near-equal numbers it would be near balance.
    double spread = ((a - b) * (a - b) + (b - c) * (b - c) + (c - a) * (c - a)) / (sum * sum);
    double r2 = 1 - 2 * spread;
    if (!(r2 >= -1e-12)) {
      return Double.NaN;
    }
    double r = Math.sqrt(Math.max(0, r2));
    // (1 - r) = (1 - r^2)/(1 + r), again without the difference.
    return Math.sqrt(Math.min(1, 2 * spread)) / (1 + r);
  }

  private static void check(double first, double second, double third) {
    if (first < 0 || second < 0 || third < 0) {
      throw new IllegalArgumentException(
          "magnitudes must not be negative: " + first + ", " + second + ", " + third);
    }
  }
}
