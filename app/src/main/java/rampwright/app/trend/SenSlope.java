package rampwright.app.trend;

import java.util.Arrays;

/**
 * Sen's slope: the median of the slopes of all pairs, with the interval of its ranks. Source:
 * Gilbert 1987, section 16.5 (from memory).
 *
 * @param slope per unit of time
 * @param low end of the interval
 * @param high end of the interval
 */
public record SenSlope(double slope, double low, double high) {

  /**
   * Of values in order of time.
   *
   * @param normalQuantile of the interval's level: 1.645 for 90 %, 1.96 for 95 %
   */
  public static SenSlope of(double[] time, double[] values, double normalQuantile) {
    int n = values.length;
    double[] slopes = new double[n * (n - 1) / 2];
    int pairs = 0;
    for (int i = 0; i < n; i++) {
      for (int j = i + 1; j < n; j++) {
        if (time[j] != time[i]) {
          slopes[pairs++] = (values[j] - values[i]) / (time[j] - time[i]);
        }
      }
    }
    double[] sorted = Arrays.copyOf(slopes, pairs);
    Arrays.sort(sorted);
    double reach = normalQuantile * Math.sqrt(MannKendall.of(values).variance());
    return new SenSlope(
        RobustScale.median(sorted),
        at(sorted, (pairs - reach) / 2 - 1),
        at(sorted, (pairs + reach) / 2));
  }

  /** Between the ranks, straight. */
  private static double at(double[] sorted, double rank) {
    if (sorted.length == 0) {
      return Double.NaN;
    }
    double held = Math.max(0, Math.min(sorted.length - 1.0, rank));
    int below = (int) held;
    int above = Math.min(sorted.length - 1, below + 1);
    return sorted[below] + (held - below) * (sorted[above] - sorted[below]);
  }
}
