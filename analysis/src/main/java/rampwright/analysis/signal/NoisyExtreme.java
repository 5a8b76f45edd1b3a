package rampwright.analysis.signal;

/**
 * Largest value of a smooth course that is seen through noisy readings.
 *
 * <p>The largest of many readings lies above the course: of 200 with normal noise by 2.7 standard
 * deviations. Instead the course is smoothed by parabolas over 5, 9, 15, 25, 41 and 65 readings
 * around the largest reading, and the widest window is taken whose largest value still agrees with
 * those of all narrower ones, within what their noise lets them be too high.
 *
 * <p>Formula: value of a parabola fitted to 2 h + 1 even readings at their middle, weights (3 h2 +
 * 3 h - 1 - 5 k2) 3 / ((2 h - 1) (2 h + 1) (2 h + 3)). Source: A. Savitzky and M. J. E. Golay,
 * Analytical Chemistry 36 (1964) 1627. Choice of the window: O. V. Lepskii, Theory of Probability
 * and Its Applications 35 (1991) 454 (both from memory).
 *
 * <p>Range: readings about evenly spaced; an extreme narrower than five readings, or within two of
 * a gap or an end, stays the largest reading.
 */
public final class NoisyExtreme {
  private static final int[] HALVES = {2, 4, 7, 12, 20, 32};

  // The largest of a few hundred normal values lies 2.7 of their standard deviation too high.
  private static final double MOST_HIGH = 2.7;

  // Neighbouring windows share readings; what a wider one may lie above a narrower one.
  private static final double MOST_LOW = 1.5;

  /**
   * A largest value.
   *
   * @param value in the series' unit; NaN when no reading is finite
   * @param sigma what noise may still have added to it, standard deviation
   * @param readings how many it was taken from: 1 for the largest reading itself
   */
  public record Largest(double value, double sigma, int readings) {}

  private NoisyExtreme() {}

  /**
   * Largest value in [from, to).
   *
   * @param values readings; NaN where there is none
   * @param sigma standard deviation of their noise; 0 for none
   */
  public static Largest largest(double[] values, int from, int to, double sigma) {
    int at = -1;
    for (int k = from; k < to; k++) {
      if (!Double.isNaN(values[k]) && (at < 0 || values[k] > values[at])) {
        at = k;
      }
    }
    if (at < 0) {
      return new Largest(Double.NaN, 0, 0);
    }
    Largest best = new Largest(values[at], MOST_HIGH * sigma, 1);
    if (!(sigma > 0)) {
      return best;
    }
    double lowest = values[at] - MOST_HIGH * sigma;
    double highest = values[at];
    for (int half : HALVES) {
      double smooth = smoothest(values, from, to, at, half);
      double own = sigma * gain(half);
      if (Double.isNaN(smooth) || smooth < lowest || smooth > highest) {
        return best;
      }
      lowest = Math.max(lowest, smooth - MOST_HIGH * own);
      highest = Math.min(highest, smooth + MOST_LOW * own);
      best = new Largest(smooth, own, 2 * half + 1);
    }
    return best;
  }

  /** Smallest value in [from, to), the same way. */
  public static Largest smallest(double[] values, int from, int to, double sigma) {
    double[] turned = new double[to];
    for (int k = from; k < to; k++) {
      turned[k] = -values[k];
    }
    Largest found = largest(turned, from, to, sigma);
    return new Largest(-found.value(), found.sigma(), found.readings());
  }

  /** Largest smoothed value whose window still holds the largest reading; NaN: no whole window. */
  private static double smoothest(double[] values, int from, int to, int at, int half) {
    double most = Double.NaN;
    for (int c = Math.max(from + half, at - half); c <= Math.min(to - 1 - half, at + half); c++) {
      double sum = 0;
      for (int k = -half; k <= half; k++) {
        sum += weight(half, k) * values[c + k];
      }
      if (!Double.isNaN(sum) && !(most >= sum)) {
        most = sum;
      }
    }
    return most;
  }

  private static double weight(int h, int k) {
    return 3.0
        * (3.0 * h * h + 3 * h - 1 - 5.0 * k * k)
        / ((2.0 * h - 1) * (2 * h + 1) * (2 * h + 3));
  }

  /** Standard deviation of a smoothed value over that of a reading: the middle weight's root. */
  private static double gain(int half) {
    return Math.sqrt(weight(half, 0));
  }
}
