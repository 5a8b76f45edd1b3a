package rampwright.app.chart;

import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;

/**
 * What a channel does within each pixel column: its first, smallest, largest and last good value.
 *
 * <p>Whatever the number of samples, a drawing made from these touches every pixel the full
 * polyline would touch, so no peak is lost: the smallest and largest of a column are samples of
 * that column, not averages.
 *
 * <p>Shape: arrays of length {@code columns}; column k covers the instants from {@code fromS + k w}
 * up to, not including, {@code fromS + (k + 1) w} with w = ({@code toS - fromS}) / columns; the
 * last column includes {@code toS}. NaN and infinite samples are left out. NaN stands where a
 * column has no good value; {@link #isGap} tells a column whose samples are all bad from one that
 * merely holds none. Samples are read in blocks, so a mapped file is passed once and never held.
 */
final class MinMaxColumns {
  private static final int BLOCK = 8192;

  private final double fromS;
  private final double widthS;
  private final double[] first;
  private final double[] min;
  private final double[] max;
  private final double[] last;
  private final boolean[] minComesFirst;
  private final boolean[] gap;

  private MinMaxColumns(double fromS, double widthS, int columns) {
    this.fromS = fromS;
    this.widthS = widthS;
    first = new double[columns];
    min = new double[columns];
    max = new double[columns];
    last = new double[columns];
    minComesFirst = new boolean[columns];
    gap = new boolean[columns];
  }

  /**
   * Columns of a channel over a window.
   *
   * @param zeroS instant of the time base that is 0 in the window, s; 0 where both are the same
   * @param columns how many, at least 1
   */
  static MinMaxColumns of(TimeBase time, Samples values, double zeroS, Span window, int columns) {
    if (columns < 1) {
      throw new IllegalArgumentException("columns: " + columns + "; at least 1 is needed");
    }
    double widthS = window.lengthS() / columns;
    MinMaxColumns result = new MinMaxColumns(window.fromS(), widthS, columns);
    double fromS = window.fromS() + zeroS;
    double toS = window.toS() + zeroS;
    double[] block = new double[BLOCK];
    int begin = time.firstAtOrAfter(fromS);
    for (int k = 0; k < columns; k++) {
      int end =
          k == columns - 1
              ? time.firstAtOrAfter(Math.nextUp(toS))
              : Math.max(begin, time.firstAtOrAfter(fromS + (k + 1) * widthS));
      result.fill(k, values, begin, end, block);
      begin = end;
    }
    return result;
  }

  private void fill(int k, Samples values, int begin, int end, double[] block) {
    double smallest = Double.POSITIVE_INFINITY;
    double largest = Double.NEGATIVE_INFINITY;
    double firstGood = Double.NaN;
    double lastGood = Double.NaN;
    int smallestAt = 0;
    int largestAt = 0;
    for (int from = begin; from < end; from += BLOCK) {
      int count = Math.min(BLOCK, end - from);
      values.copy(from, block, 0, count);
      for (int i = 0; i < count; i++) {
        double value = block[i];
        // False for NaN and for both infinities.
        if (!(Math.abs(value) <= Double.MAX_VALUE)) {
          continue;
        }
        if (value < smallest) {
          smallest = value;
          smallestAt = from + i;
        }
        if (value > largest) {
          largest = value;
          largestAt = from + i;
        }
        if (Double.isNaN(firstGood)) {
          firstGood = value;
        }
        lastGood = value;
      }
    }
    boolean any = smallest <= largest;
    first[k] = firstGood;
    last[k] = lastGood;
    min[k] = any ? smallest : Double.NaN;
    max[k] = any ? largest : Double.NaN;
    minComesFirst[k] = smallestAt <= largestAt;
    gap[k] = !any && end > begin;
  }

  int columns() {
    return min.length;
  }

  /** Time of the middle of column {@code k} in the window's time, s. */
  double middleS(int k) {
    return fromS + (k + 0.5) * widthS;
  }

  double first(int k) {
    return first[k];
  }

  double min(int k) {
    return min[k];
  }

  double max(int k) {
    return max[k];
  }

  double last(int k) {
    return last[k];
  }

  /** Whether the smallest value of column {@code k} came before its largest. */
  boolean minComesFirst(int k) {
    return minComesFirst[k];
  }

  /** Whether column {@code k} has a good value. */
  boolean has(int k) {
    return !Double.isNaN(min[k]);
  }

  /** Whether column {@code k} holds samples, none of them good. */
  boolean isGap(int k) {
    return gap[k];
  }
}
