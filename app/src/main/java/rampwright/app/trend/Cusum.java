package rampwright.app.trend;

/**
 * Two one-sided cumulative sums. Source: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3.
 *
 * @param target the baseline
 * @param allowance subtracted of each deviation, in the values' unit: half the shift looked for
 * @param decision sum from which it alarms, in the values' unit
 */
public record Cusum(double target, double allowance, double decision) {

  /** The upper sum after each value. */
  public double[] upper(double... values) {
    return sums(1, values);
  }

  /** The lower sum after each value, positive. */
  public double[] lower(double... values) {
    return sums(-1, values);
  }

  private double[] sums(int side, double... values) {
    double[] sums = new double[values.length];
    double sum = 0;
    for (int i = 0; i < values.length; i++) {
      sum = Math.max(0, sum + side * (values[i] - target) - allowance);
      sums[i] = sum;
    }
    return sums;
  }
}
