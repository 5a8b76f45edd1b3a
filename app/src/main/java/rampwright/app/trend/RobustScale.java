package rampwright.app.trend;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/** Medians and the spread about them. */
final class RobustScale {
  /**
   * Ratio of a normal distribution's standard deviation to its median absolute deviation, 1 /
   * 0.67449 (normal quantile at 3/4).
   */
  static final double NORMAL_PER_MAD = 1.482602218505602;

  private static final double SQRT2 = Math.sqrt(2);

  /** More than these are narrowed to those near the middle first. */
  private static final int FEW = 128;

  private static final int SAMPLE = 32;

  /** Two standard deviations of the middle's place in a sample, sqrt(32) / 2 each, and a bit. */
  private static final int SAMPLE_REACH = 6;

  /** Spans from here on are narrowed by a part of them first. */
  private static final int LARGE = 150;

  private RobustScale() {}

  /** The median; the mean of the two in the middle of an even number; NaN of nothing. */
  static double median(double... values) {
    int n = values.length;
    if (n == 0) {
      return Double.NaN;
    }
    Near near = new Near(values, 0);
    for (Near closer = near; closer != null; ) {
      near = closer;
      closer = near.closer(n / 2 - 1, n / 2);
    }
    double[] work = near.values == values ? values.clone() : near.values;
    int k = n / 2 - near.below;
    double upper = select(work, k);
    if (n % 2 == 1) {
      return upper;
    }
    // what is left of the place selected is no larger
    double lower = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < k; i++) {
      lower = Math.max(lower, work[i]);
    }
    return (lower + upper) / 2;
  }

  /**
   * Values near the middle of many.
   *
   * @param below how many smaller ones there are beside them
   */
  // & for &&: a branch that goes either way by chance costs several times the second comparison
  @SuppressWarnings({"ArrayRecordComponent", "ShortCircuitBoolean"})
  private record Near(double[] values, int below) {
    /**
     * Fewer of them, between two values guessed from every few, that surely hold the a-th and b-th
     * smallest of all; looks at each twice, without a branch that depends on it. The same where
     * they are few, the guess was wrong, or many are alike. An infinite one is put at their end,
     * beyond any place asked.
     */
    @Nullable Near closer(int a, int b) {
      if (values.length <= FEW) {
        return null;
      }
      int step = values.length / SAMPLE;
      double[] sample = new double[SAMPLE];
      for (int i = 0; i < SAMPLE; i++) {
        sample[i] = values[i * step];
      }
      Arrays.sort(sample);
      int middle = (int) ((long) (b - below) * SAMPLE / values.length);
      double low = sample[Math.max(0, middle - SAMPLE_REACH)];
      double high = sample[Math.min(SAMPLE - 1, middle + SAMPLE_REACH)];
      int inside = 0;
      int smaller = below;
      for (double value : values) {
        inside += value >= low & value <= high ? 1 : 0;
        smaller += value < low ? 1 : 0;
      }
      if (a < smaller || b >= smaller + inside || inside > values.length / 2) {
        return null;
      }
      // one more: what does not belong is written there and over it
      double[] kept = new double[inside + 1];
      int n = 0;
      for (double value : values) {
        kept[n] = value;
        n += value >= low & value <= high ? 1 : 0;
      }
      kept[inside] = Double.POSITIVE_INFINITY;
      return new Near(kept, smaller);
    }
  }

  /**
   * The k-th smallest, from 0; smaller ones are left before its place. Source: Floyd and Rivest,
   * Algorithm 489, Communications of the ACM 18 (1975) (from memory): the dividing value is taken
   * near the place asked for, which looks at each value about 1.5 times.
   */
  static double select(double[] values, int k) {
    int left = 0;
    int right = values.length - 1;
    while (right > left) {
      if (right - left > LARGE) {
        narrow(values, left, right, k);
      }
      double divide = values[k];
      int i = left;
      int j = right;
      swap(values, left, k);
      boolean above = values[right] > divide;
      if (above) {
        swap(values, left, right);
      }
      while (i < j) {
        swap(values, i, j);
        i++;
        j--;
        while (values[i] < divide) {
          i++;
        }
        while (values[j] > divide) {
          j--;
        }
      }
      if (above) {
        swap(values, left, j);
      } else {
        j++;
        swap(values, j, right);
      }
      left = j <= k ? j + 1 : left;
      right = k <= j ? j - 1 : right;
    }
    return values[k];
  }

  /** Puts a value near the k-th of the span at its place, by looking at a part of the span. */
  private static void narrow(double[] values, int left, int right, int k) {
    double n = right - left + 1.0;
    double i = k - left + 1.0;
    double log = Math.log(n);
    double size = 0.5 * Math.exp(2 * log / 3);
    double spread = 0.5 * Math.sqrt(log * size * (n - size) / n) * Math.signum(i - n / 2);
    int from = (int) Math.max(left, k - i * size / n + spread);
    int to = (int) Math.min(right, k + (n - i) * size / n + spread);
    double[] part = Arrays.copyOfRange(values, from, to + 1);
    select(part, k - from);
    System.arraycopy(part, 0, values, from, part.length);
  }

  private static void swap(double[] values, int a, int b) {
    double held = values[a];
    values[a] = values[b];
    values[b] = held;
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
    int most = (to - from - 2) / 2;
    int others = to - from - 1;
    int within = 0;
    for (int j = from; j < to && others - within > most; j++) {
      if (j != i) {
        if (!(Math.abs(values[j] - values[i]) <= reach)) {
          return isWithinOfAll(values, i, from, to, reach);
        }
        within++;
      }
    }
    return true;
  }

  private static boolean isWithinOfAll(double[] values, int i, int from, int to, double reach) {
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
