package rampwright.app.trend;

import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.RealVector;
import org.hipparchus.special.Erf;

/**
 * Average run length of the charts: how many starts until one alarms, for independent normal
 * values, by a chain of many small states. Source: Brook and Evans, An approach to the probability
 * distribution of cusum run length, Biometrika 59 (1972) (from memory).
 */
public final class RunLength {
  private static final int STATES = 201;

  private RunLength() {}

  /**
   * Of one one-sided cumulative sum from 0.
   *
   * @param allowance in standard deviations
   * @param decision in standard deviations
   * @param shift of the mean, in standard deviations
   */
  public static double ofCusum(double allowance, double decision, double shift) {
    double width = 2 * decision / (2 * STATES - 1);
    double[][] stay = new double[STATES][STATES];
    for (int from = 0; from < STATES; from++) {
      for (int to = 0; to < STATES; to++) {
        double upper = (to - from + 0.5) * width + allowance - shift;
        double lower = to == 0 ? Double.NEGATIVE_INFINITY : upper - width;
        stay[from][to] = normal(upper) - normal(lower);
      }
    }
    return solved(stay)[0];
  }

  /** Of both sums together: 1/L = 1/L+ + 1/L-, exact for these charts. Same place as above. */
  public static double ofTwoSidedCusum(double allowance, double decision, double shift) {
    return 1 / (1 / ofCusum(allowance, decision, shift) + 1 / ofCusum(allowance, decision, -shift));
  }

  /**
   * Of an exponentially weighted average with its lasting limits.
   *
   * @param reach of the limits, in standard deviations of the average
   */
  public static double ofEwma(double lambda, double reach, double shift) {
    double limit = reach * Math.sqrt(lambda / (2 - lambda));
    double width = 2 * limit / STATES;
    double[][] stay = new double[STATES][STATES];
    for (int from = 0; from < STATES; from++) {
      double here = -limit + (from + 0.5) * width;
      for (int to = 0; to < STATES; to++) {
        double begin = -limit + to * width;
        double low = (begin - (1 - lambda) * here) / lambda - shift;
        double high = (begin + width - (1 - lambda) * here) / lambda - shift;
        stay[from][to] = normal(high) - normal(low);
      }
    }
    return solved(stay)[STATES / 2];
  }

  private static double[] solved(double[][] stay) {
    int n = stay.length;
    double[][] left = new double[n][n];
    double[] ones = new double[n];
    for (int i = 0; i < n; i++) {
      ones[i] = 1;
      for (int j = 0; j < n; j++) {
        left[i][j] = (i == j ? 1 : 0) - stay[i][j];
      }
    }
    RealVector lengths =
        new LUDecomposition(new Array2DRowRealMatrix(left, false))
            .getSolver()
            .solve(new ArrayRealVector(ones, false));
    return lengths.toArray();
  }

  private static double normal(double z) {
    return z == Double.NEGATIVE_INFINITY ? 0 : 0.5 * Erf.erfc(-z / Math.sqrt(2));
  }
}
