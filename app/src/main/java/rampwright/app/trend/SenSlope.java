package rampwright.app.trend;

import java.util.Arrays;
import org.hipparchus.util.KthSelector;

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
    double[] slopes = slopes(time, values);
    int pairs = slopes.length;
    double reach = normalQuantile * Math.sqrt(MannKendall.of(values).variance());
    Ranks ranks = new Ranks(slopes);
    return new SenSlope(
        ranks.at((pairs - 1) / 2.0),
        ranks.at((pairs - reach) / 2 - 1),
        ranks.at((pairs + reach) / 2));
  }

  /** The slope alone, which takes less time than its interval. */
  static double middle(double[] time, double[] values) {
    return RobustScale.median(slopes(time, values));
  }

  /** Of all pairs at different times. */
  private static double[] slopes(double[] time, double[] values) {
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
    return pairs == slopes.length ? slopes : Arrays.copyOf(slopes, pairs);
  }

  /** Values by rank, sorted no further than the ranks asked for: there are a million of them. */
  private static final class Ranks {
    private static final int PIVOTS = 512;

    private final KthSelector selector = new KthSelector();
    private final int[] pivots = new int[PIVOTS];
    private final double[] values;

    Ranks(double[] values) {
      this.values = values;
      Arrays.fill(pivots, -1);
    }

    /** Between two ranks, straight. */
    double at(double rank) {
      if (values.length == 0) {
        return Double.NaN;
      }
      double held = Math.max(0, Math.min(values.length - 1.0, rank));
      int below = (int) held;
      double low = selector.select(values, pivots, below);
      double share = held - below;
      return share > 0 ? low + share * (selector.select(values, pivots, below + 1) - low) : low;
    }
  }
}
