package rampwright.analysis.figure;

/**
 * A straight line through points by least squares.
 *
 * @param slope change a second
 * @param middleS mean of the times
 * @param middle value at {@code middleS}
 * @param scatter standard deviation of the points about the line
 * @param points how many points
 */
record Line(double slope, double middleS, double middle, double scatter, int points) {

  /** Line through the finite values of [from, to); NaN everywhere with fewer than two points. */
  static Line through(double[] timeS, double[] values, int from, int to) {
    double st = 0;
    double sx = 0;
    int n = 0;
    for (int i = from; i < to; i++) {
      if (!Double.isNaN(values[i])) {
        st += timeS[i];
        sx += values[i];
        n++;
      }
    }
    if (n < 2) {
      return new Line(Double.NaN, Double.NaN, Double.NaN, Double.NaN, n);
    }
    double mt = st / n;
    double mx = sx / n;
    double stt = 0;
    double stx = 0;
    for (int i = from; i < to; i++) {
      if (!Double.isNaN(values[i])) {
        stt += (timeS[i] - mt) * (timeS[i] - mt);
        stx += (timeS[i] - mt) * (values[i] - mx);
      }
    }
    double slope = stx / stt;
    double rest = 0;
    for (int i = from; i < to; i++) {
      if (!Double.isNaN(values[i])) {
        double r = values[i] - mx - slope * (timeS[i] - mt);
        rest += r * r;
      }
    }
    return new Line(slope, mt, mx, n > 2 ? Math.sqrt(rest / (n - 2)) : 0, n);
  }

  double at(double timeS) {
    return middle + slope * (timeS - middleS);
  }

  /** When the line reaches a value. */
  double reachesS(double value) {
    return middleS + (value - middle) / slope;
  }
}
