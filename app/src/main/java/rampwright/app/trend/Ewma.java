package rampwright.app.trend;

/**
 * Exponentially weighted moving average about a target. Source: NIST/SEMATECH e-Handbook of
 * Statistical Methods, 6.3.2.4.
 *
 * @param lambda weight of the newest value, 0 to 1
 * @param target where it begins
 * @param sd standard deviation of one value
 * @param reach half width of the limits, in standard deviations of the average
 */
public record Ewma(double lambda, double target, double sd, double reach) {

  /** The average after each value. */
  public double[] of(double... values) {
    double[] averages = new double[values.length];
    double average = target;
    for (int i = 0; i < values.length; i++) {
      average = lambda * values[i] + (1 - lambda) * average;
      averages[i] = average;
    }
    return averages;
  }

  /** Half width of the limits once many values are in. */
  public double halfWidth() {
    return reach * sd * Math.sqrt(lambda / (2 - lambda));
  }

  /** Half width after a number of values, narrower at first. */
  public double halfWidth(int values) {
    return halfWidth() * Math.sqrt(1 - Math.pow(1 - lambda, 2.0 * values));
  }
}
