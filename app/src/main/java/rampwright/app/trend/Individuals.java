package rampwright.app.trend;

/**
 * Chart of individual values with the limits of their moving ranges: mean +- 3 mean moving range /
 * 1.128, moving ranges up to 3.267 times their mean. Source: NIST/SEMATECH e-Handbook of
 * Statistical Methods, 6.3.2.2; factors for ranges of two values.
 *
 * @param mean of the values the limits are taken from
 * @param meanRange mean difference of neighbours, without sign
 */
public record Individuals(double mean, double meanRange) {
  /** Mean range of two normal values, in standard deviations (d2). */
  private static final double RANGE_PER_SD = 1.128;

  /** Largest range of two over the mean one (D4). */
  private static final double MOST_RANGE = 3.267;

  private static final double REACH = 3;

  /**
   * Limits of these values.
   *
   * @throws IllegalArgumentException for fewer than two
   */
  public static Individuals of(double... values) {
    if (values.length < 2) {
      throw new IllegalArgumentException("a moving range needs two values");
    }
    double sum = values[0];
    double ranges = 0;
    for (int i = 1; i < values.length; i++) {
      sum += values[i];
      ranges += Math.abs(values[i] - values[i - 1]);
    }
    return new Individuals(sum / values.length, ranges / (values.length - 1));
  }

  public double upper() {
    return mean + REACH * meanRange / RANGE_PER_SD;
  }

  public double lower() {
    return mean - REACH * meanRange / RANGE_PER_SD;
  }

  /** A difference of neighbours beyond this is out. */
  public double rangeLimit() {
    return MOST_RANGE * meanRange;
  }

  public boolean isOut(double value) {
    return value > upper() || value < lower();
  }

  /** Index of the first value that is out; -1: none. */
  public int firstOut(double... values) {
    for (int i = 0; i < values.length; i++) {
      if (isOut(values[i])) {
        return i;
      }
    }
    return -1;
  }
}
