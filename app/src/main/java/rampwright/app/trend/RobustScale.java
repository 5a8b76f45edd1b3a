package rampwright.app.trend;

import org.hipparchus.util.KthSelector;

/** Medians and the spread about them. */
final class RobustScale {
  /**
   * Ratio of a normal distribution's standard deviation to its median absolute deviation, 1 /
   * 0.67449 (normal quantile at 3/4).
   */
  static final double NORMAL_PER_MAD = 1.482602218505602;

  private static final double SQRT2 = Math.sqrt(2);
  private static final KthSelector SELECTOR = new KthSelector();

  private RobustScale() {}

  /** The median; the mean of the two in the middle of an even number; NaN of nothing. */
  static double median(double... values) {
    int n = values.length;
    if (n == 0) {
      return Double.NaN;
    }
    double[] work = values.clone();
    double upper = SELECTOR.select(work, null, n / 2);
    if (n % 2 == 1) {
      return upper;
    }
    // what is left of the place selected is no larger
    double lower = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < n / 2; i++) {
      lower = Math.max(lower, work[i]);
    }
    return (lower + upper) / 2;
  }

  /** The median of values in order. */
  static double medianOfSorted(double... sorted) {
    int n = sorted.length;
    if (n == 0) {
      return Double.NaN;
    }
    return n % 2 == 1 ? sorted[n / 2] : (sorted[n / 2 - 1] + sorted[n / 2]) / 2;
  }

  /** The median absolute deviation from the median, not scaled. */
  static double mad(double... values) {
    return madAbout(median(values), values);
  }

  /** The same about a median that is known. */
  static double madAbout(double middle, double... values) {
    double[] away = new double[values.length];
    for (int i = 0; i < away.length; i++) {
      away[i] = Math.abs(values[i] - middle);
    }
    return median(away);
  }

  /**
   * Standard deviation of one value from the differences of neighbours, which neither a step nor a
   * slow drift widens: 1.4826 MAD / sqrt(2).
   */
  static double ofNeighbours(double... values) {
    double[] differences = new double[Math.max(0, values.length - 1)];
    for (int i = 0; i < differences.length; i++) {
      differences[i] = values[i + 1] - values[i];
    }
    return differences.length == 0 ? Double.NaN : NORMAL_PER_MAD * mad(differences) / SQRT2;
  }

  /**
   * Weight of each value between 0 and 1: full within {@code reach} standard deviations of the
   * median of its neighbours, falling as 1/distance beyond. Neighbours rather than all, since the
   * values after a step are no outliers.
   */
  static double[] weights(double[] values, double sd, int eachSide, double reach) {
    double[] weights = new double[values.length];
    for (int i = 0; i < values.length; i++) {
      int from = Math.max(0, i - eachSide);
      int to = Math.min(values.length, i + eachSide + 1);
      if (isWithin(values, i, from, to, reach * sd)) {
        weights[i] = 1;
        continue;
      }
      double[] others = new double[to - from - 1];
      for (int j = from, at = 0; j < to; j++) {
        if (j != i) {
          others[at++] = values[j];
        }
      }
      double away = others.length == 0 ? 0 : Math.abs(values[i] - median(others));
      weights[i] = away <= reach * sd ? 1 : Math.pow(reach * sd / away, 2);
    }
    return weights;
  }

  /** Whether the median of the neighbours is surely no farther away: most values need no more. */
  private static boolean isWithin(double[] values, int i, int from, int to, double reach) {
    int below = 0;
    int above = 0;
    for (int j = from; j < to; j++) {
      // the value itself is neither
      below += values[j] < values[i] - reach ? 1 : 0;
      above += values[j] > values[i] + reach ? 1 : 0;
    }
    int most = (to - from - 2) / 2;
    return below <= most && above <= most;
  }
}
