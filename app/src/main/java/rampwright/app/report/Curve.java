package rampwright.app.report;

import java.util.Arrays;

/** A line to be drawn: values against seconds, few enough for a page. Peaks are kept. */
public final class Curve {
  private final double[] timeS;
  private final double[] value;

  private Curve(double[] timeS, double[] value) {
    this.timeS = timeS;
    this.value = value;
  }

  /**
   * Values within a window, thinned to the smallest and the largest of each of so many columns.
   *
   * @param timeS increasing
   * @param value NaN where there is none; it is passed over
   */
  static Curve of(double[] timeS, double[] value, double fromS, double toS, int columns) {
    double[] t = new double[2 * columns];
    double[] v = new double[2 * columns];
    int size = 0;
    double widthS = (toS - fromS) / columns;
    int i = 0;
    for (int k = 0; k < columns; k++) {
      double endS = k == columns - 1 ? Math.nextUp(toS) : fromS + (k + 1) * widthS;
      int least = -1;
      int most = -1;
      for (; i < timeS.length && timeS[i] < endS; i++) {
        if (timeS[i] < fromS || !Double.isFinite(value[i])) {
          continue;
        }
        least = least < 0 || value[i] < value[least] ? i : least;
        most = most < 0 || value[i] > value[most] ? i : most;
      }
      if (least >= 0) {
        int first = Math.min(least, most);
        int second = Math.max(least, most);
        t[size] = timeS[first];
        v[size++] = value[first];
        if (second != first) {
          t[size] = timeS[second];
          v[size++] = value[second];
        }
      }
    }
    return new Curve(Arrays.copyOf(t, size), Arrays.copyOf(v, size));
  }

  /** A line through given points. */
  public static Curve through(double[] timeS, double[] value) {
    if (timeS.length != value.length) {
      throw new IllegalArgumentException(timeS.length + " times for " + value.length + " values");
    }
    return new Curve(timeS.clone(), value.clone());
  }

  public int size() {
    return timeS.length;
  }

  /** Time of a point, s. */
  public double timeS(int point) {
    return timeS[point];
  }

  /** Value of a point. */
  public double value(int point) {
    return value[point];
  }

  /** The largest value; NaN where there is none. */
  public double largest() {
    return Arrays.stream(value).max().orElse(Double.NaN);
  }

  /** The smallest value; NaN where there is none. */
  public double smallest() {
    return Arrays.stream(value).min().orElse(Double.NaN);
  }
}
