package rampwright.analysis.signal;

import java.util.Arrays;

/** Noise and resolution of a series, told from the series itself. */
public final class Noise {
  // 1.4826 turns the median of absolute values of a normal variable into its standard deviation.
  private static final double MAD_TO_SIGMA = 1.4826;
  private static final double SECOND_DIFFERENCE = Math.sqrt(6);
  private static final int LEAST = 5;

  private Noise() {}

  /**
   * Standard deviation of white noise on a smooth series.
   *
   * <p>Formula: 1.4826 median|x(k-1) - 2 x(k) + x(k+1)| / sqrt(6). A smooth course cancels in the
   * second difference; steps are few and the median passes them by.
   *
   * @return 0 with fewer than 5 good triples
   */
  public static double sigma(double[] values, int from, int to) {
    double[] differences = new double[Math.max(0, to - from)];
    int n = 0;
    for (int i = from + 1; i < to - 1; i++) {
      double d = values[i - 1] - 2 * values[i] + values[i + 1];
      if (!Double.isNaN(d)) {
        differences[n++] = Math.abs(d);
      }
    }
    if (n < LEAST) {
      return 0;
    }
    return MAD_TO_SIGMA * median(differences, n) / SECOND_DIFFERENCE;
  }

  /**
   * Smallest step between two neighbouring unequal values: the resolution; 0 when all are equal.
   */
  public static double resolution(double[] values, int from, int to) {
    double smallest = Double.POSITIVE_INFINITY;
    for (int i = from + 1; i < to; i++) {
      double d = Math.abs(values[i] - values[i - 1]);
      // Printed decimals leave differences of a few ulps between equal steps.
      if (d > 1e-9 * Math.abs(values[i]) && d < smallest) {
        smallest = d;
      }
    }
    return Double.isInfinite(smallest) ? 0 : smallest;
  }

  /** Median of the finite values in [from, to); NaN when there is none. */
  public static double median(double[] values, int from, int to) {
    double[] good = new double[Math.max(0, to - from)];
    int n = 0;
    for (int i = from; i < to; i++) {
      if (!Double.isNaN(values[i])) {
        good[n++] = values[i];
      }
    }
    return n == 0 ? Double.NaN : median(good, n);
  }

  private static double median(double[] scratch, int n) {
    Arrays.sort(scratch, 0, n);
    return n % 2 == 1 ? scratch[n / 2] : 0.5 * (scratch[n / 2 - 1] + scratch[n / 2]);
  }

  /**
   * Standard deviation of normal values about their median: 1.4826 median|x - median|; NaN when no
   * value is finite. Half of the values may be anything.
   */
  public static double spread(double[] values, int from, int to) {
    double middle = median(values, from, to);
    double[] off = new double[Math.max(0, to - from)];
    for (int i = from; i < to; i++) {
      off[i - from] = Math.abs(values[i] - middle);
    }
    return MAD_TO_SIGMA * median(off, 0, off.length);
  }

  /** Largest value in [from, to); NaN when there is none. */
  public static double largest(double[] values, int from, int to) {
    double largest = Double.NaN;
    for (int i = from; i < to; i++) {
      if (!Double.isNaN(values[i]) && !(largest >= values[i])) {
        largest = values[i];
      }
    }
    return largest;
  }

  /** Running median of three; the ends and neighbours of NaN are left as they are. */
  public static double[] medianOfThree(double[] values) {
    double[] out = values.clone();
    for (int i = 1; i + 1 < values.length; i++) {
      double a = values[i - 1];
      double b = values[i];
      double c = values[i + 1];
      if (!Double.isNaN(a) && !Double.isNaN(b) && !Double.isNaN(c)) {
        out[i] = Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
      }
    }
    return out;
  }
}
