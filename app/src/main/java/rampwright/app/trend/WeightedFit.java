package rampwright.app.trend;

import java.util.Arrays;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.jspecify.annotations.Nullable;

/**
 * Weighted linear regression with normal priors of mean 0 on the coefficients: minimises sum w (y -
 * X b)^2 + sum (b_j / p_j)^2 s^2, with s the standard deviation of one value and p_j the prior's.
 * Source: conjugate linear regression, e.g. Gelman et al., Bayesian Data Analysis, 3rd ed., section
 * 14.8 (from memory).
 */
final class WeightedFit {
  private final double[] y;
  private final double[][] columns;
  private final double[] priors;
  private final double[] weights;
  private final double sd;

  /** Products of the columns with each other and with y, weighted, without the priors' share. */
  private final double[][] products;

  private final double[] right;
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
    this(y, weights, columns, priors, sd, gram(columns), null);
  }

  /**
   * The same where the products are known, of equal weights or of fewer columns.
   *
   * @param equal products of the columns of equal weights; used where there is no narrower fit
   * @param narrower fit of the first of these columns with the same y and weights; null for none
   */
  WeightedFit(
      double[] y,
      double[] weights,
      double[][] columns,
      double[] priors,
      double sd,
      double[][] equal,
      @Nullable WeightedFit narrower) {
    this.y = y;
    this.columns = columns;
    this.priors = priors;
    this.weights = weights;
    this.sd = sd;
    int terms = columns.length;
    products = new double[terms][terms];
    right = new double[terms];
    int known = 0;
    if (narrower != null) {
      known = narrower.terms();
      for (int a = 0; a < known; a++) {
        System.arraycopy(narrower.products[a], 0, products[a], 0, known);
      }
      System.arraycopy(narrower.right, 0, right, 0, known);
    } else {
      known = equal.length;
      fromEqual(equal);
    }
    double[] weighted = new double[y.length];
    for (int a = 0; a < terms; a++) {
      if (a >= known || narrower == null) {
        for (int i = 0; i < weighted.length; i++) {
          weighted[i] = weights[i] * columns[a][i];
        }
        right[a] = product(weighted, y);
      }
      for (int b = 0; a >= known && b <= a; b++) {
        products[a][b] = product(weighted, columns[b]);
        products[b][a] = products[a][b];
      }
    }
    double[][] normal = new double[terms][];
    for (int a = 0; a < terms; a++) {
      normal[a] = products[a].clone();
      normal[a][a] += sd * sd / (priors[a] * priors[a]);
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

  /** The same with one more column, and what is known of the others. */
  WeightedFit with(double[] column, double prior) {
    double[][] wider = Arrays.copyOf(columns, columns.length + 1);
    wider[columns.length] = column;
    double[] widerPriors = Arrays.copyOf(priors, wider.length);
    widerPriors[columns.length] = prior;
    return new WeightedFit(y, weights, wider, widerPriors, sd, new double[0][], this);
  }

  /** Products of columns with each other where all weights are 1. */
  static double[][] gram(double[][] columns) {
    double[][] gram = new double[columns.length][columns.length];
    for (int a = 0; a < columns.length; a++) {
      for (int b = 0; b <= a; b++) {
        gram[a][b] = product(columns[a], columns[b]);
        gram[b][a] = gram[a][b];
      }
    }
    return gram;
  }

  /** Most weights are 1: what the others lack is taken off. */
  private void fromEqual(double[][] equal) {
    for (int a = 0; a < equal.length; a++) {
      System.arraycopy(equal[a], 0, products[a], 0, equal.length);
    }
    for (int i = 0; i < weights.length; i++) {
      double lacks = 1 - weights[i];
      if (lacks != 0) {
        for (int a = 0; a < equal.length; a++) {
          for (int b = 0; b < equal.length; b++) {
            products[a][b] -= lacks * columns[a][i] * columns[b][i];
          }
        }
      }
    }
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

  /** Adds what a term explains of each value. */
  void addTo(double[] sum, int term) {
    double[] column = columns[term];
    double coefficient = coefficients[term];
    for (int i = 0; i < sum.length; i++) {
      sum[i] += coefficient * column[i];
    }
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
