package rampwright.app.trend;

import java.util.Arrays;
import org.hipparchus.special.Erf;

/**
 * The test of Mann and Kendall for a trend, normal approximation with the correction of one and
 * ties counted. Source: Gilbert, Statistical Methods for Environmental Pollution Monitoring, 1987,
 * section 16.4 (from memory); for ten values or fewer the approximation is rough.
 *
 * @param s pairs that rise less pairs that fall
 * @param variance of s where there is no trend
 */
public record MannKendall(long s, double variance) {

  /** Of values in order of time; costs n^2. */
  public static MannKendall of(double... values) {
    int n = values.length;
    long s = 0;
    for (int i = 0; i < n; i++) {
      double here = values[i];
      int rising = 0;
      int falling = 0;
      // two sums without a branch: which way a pair goes cannot be guessed
      for (int j = i + 1; j < n; j++) {
        rising += values[j] > here ? 1 : 0;
        falling += values[j] < here ? 1 : 0;
      }
      s += rising - falling;
    }
    double variance = n * (n - 1.0) * (2.0 * n + 5);
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    for (int from = 0, to; from < n; from = to) {
      to = from;
      while (to < n && sorted[to] == sorted[from]) {
        to++;
      }
      double ties = to - from;
      variance -= ties * (ties - 1) * (2 * ties + 5);
    }
    return new MannKendall(s, variance / 18);
  }

  public double z() {
    return s == 0 || variance <= 0 ? 0 : (s - Math.signum((double) s)) / Math.sqrt(variance);
  }

  /** Two-sided chance of an s as large or larger without a trend. */
  public double p() {
    return Erf.erfc(Math.abs(z()) / Math.sqrt(2));
  }
}
