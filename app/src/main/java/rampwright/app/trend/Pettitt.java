package rampwright.app.trend;

import java.util.Arrays;

/**
 * The test of Pettitt for one change of level, by ranks: K = max |U_t|, U_t = 2 (sum of the first t
 * ranks) - t (n + 1), p about 2 exp(-6 K^2 / (n^3 + n^2)). Source: Pettitt, A non-parametric
 * approach to the change-point problem, Applied Statistics 28 (1979).
 *
 * @param k the largest |U|
 * @param last how many values lie before the change
 * @param p chance of so large a K without a change; at most 1, rough above 0.5
 */
public record Pettitt(double k, int last, double p) {

  /** Of values in order of time; ties share their ranks. */
  public static Pettitt of(double... values) {
    int n = values.length;
    double[] ranks = ranks(values);
    double sum = 0;
    double most = 0;
    int at = 0;
    for (int t = 1; t < n; t++) {
      sum += ranks[t - 1];
      double u = Math.abs(2 * sum - t * (n + 1.0));
      if (u > most) {
        most = u;
        at = t;
      }
    }
    double p = 2 * Math.exp(-6 * most * most / (Math.pow(n, 3) + (double) n * n));
    return new Pettitt(most, at, Math.min(1, p));
  }

  private static double[] ranks(double... values) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    double[] ranks = new double[values.length];
    for (int i = 0; i < values.length; i++) {
      int first = Arrays.binarySearch(sorted, values[i]);
      int last = first;
      while (first > 0 && sorted[first - 1] == values[i]) {
        first--;
      }
      while (last < sorted.length - 1 && sorted[last + 1] == values[i]) {
        last++;
      }
      ranks[i] = (first + last) / 2.0 + 1;
    }
    return ranks;
  }
}
