package rampwright.app.trend;

import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;

/**
 * Weighted linear regression with normal priors of mean 0 on the coefficients: minimises sum w (y -
 * X b)^2 + sum (b_j / p_j)^2 s^2, with s the standard deviation of one value and p_j the prior's.
 * Source: conjugate linear regression, e.g. Gelman et al., Bayesian Data Analysis, 3rd ed., section
 * 14.8 (from memory).
 */
final class WeightedFit {
  private final double[][] columns;
  private final double[] weights;
  private final RealMatrix inverse;
  private final double[][] unit;
  private final double[] coefficients;
  private final double[] residuals;
  private final double rss;

  /**
   * Made of its parts.
   *
   * @param columns one array a regressor, each as long as {@code y}
   * @param priors standard deviation of each coefficient's prior
   * @param sd standard deviation of one value of {@code y}
   */
  WeightedFit(double[] y, double[] weights, double[][] columns, double[] priors, double sd) {
    this.columns = columns;
    this.weights = weights;
    int terms = columns.length;
    double[][] normal = new double[terms][terms];
    double[] right = new double[terms];
    double[] weighted = new double[y.length];
    for (int a = 0; a < terms; a++) {
      for (int i = 0; i < weighted.length; i++) {
        weighted[i] = weights[i] * columns[a][i];
      }
      for (int b = 0; b <= a; b++) {
        normal[a][b] = product(weighted, columns[b]);
        normal[b][a] = normal[a][b];
      }
      normal[a][a] += sd * sd / (priors[a] * priors[a]);
      right[a] = product(weighted, y);
    }
    inverse =
        new CholeskyDecomposition(new Array2DRowRealMatrix(normal, false), 1e-9, 1e-300)
            .getSolver()
            .getInverse();
    unit = inverse.getData();
    RealVector solved = inverse.operate(new ArrayRealVector(right, false));
    coefficients = solved.toArray();
    residuals = y.clone();
    for (int a = 0; a < terms; a++) {
      double[] column = columns[a];
      double coefficient = coefficients[a];
      for (int i = 0; i < y.length; i++) {
        residuals[i] -= column[i] * coefficient;
      }
    }
    double sum = 0;
    for (int i = 0; i < y.length; i++) {
      sum += weights[i] * residuals[i] * residuals[i];
    }
    for (int a = 0; a < terms; a++) {
      sum += Math.pow(coefficients[a] * sd / priors[a], 2);
    }
    rss = sum;
  }

  private static double product(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i] * b[i];
    }
    return sum;
  }

  double coefficient(int term) {
    return coefficients[term];
  }

  /** Covariance of two coefficients for a value's variance of 1. */
  double unitCovariance(int a, int b) {
    return unit[a][b];
  }

  /** Covariance of two combinations of the coefficients for a value's variance of 1. */
  double unitCovariance(double[] a, double[] b) {
    return inverse.operate(new ArrayRealVector(a, false)).dotProduct(new ArrayRealVector(b, false));
  }

  /** A combination of the coefficients. */
  double value(double[] combination) {
    double sum = 0;
    for (int a = 0; a < combination.length; a++) {
      sum += combination[a] * coefficients[a];
    }
    return sum;
  }

  double residual(int i) {
    return residuals[i];
  }

  double weight(int i) {
    return weights[i];
  }

  int size() {
    return residuals.length;
  }

  int terms() {
    return columns.length;
  }

  double column(int term, int i) {
    return columns[term][i];
  }

  /** Weighted squares of the residuals, the priors' share included. */
  double rss() {
    return rss;
  }

  double weightSum() {
    double sum = 0;
    for (double weight : weights) {
      sum += weight;
    }
    return sum;
  }

  /**
   * What is left of the squared length of a new column once the fitted ones have taken their share.
   *
   * @param squares its weighted squared length
   * @param products its weighted products with each fitted column
   */
  double lengthLeft(double squares, double[] products) {
    double taken = 0;
    for (int a = 0; a < products.length; a++) {
      double[] row = unit[a];
      double cross = 0;
      for (int b = 0; b < a; b++) {
        cross += row[b] * products[b];
      }
      // symmetric: the other half is the same
      taken += products[a] * (2 * cross + row[a] * products[a]);
    }
    return Math.max(0, squares - taken);
  }
}
