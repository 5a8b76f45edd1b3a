package rampwright.analysis.fit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.hipparchus.exception.MathRuntimeException;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.RealMatrix;

/**
 * What is left uncertain after a fit: the covariance of the problem linearised at its optimum, and
 * draws from the Gaussian it makes, reweighted by their true density and resampled.
 */
final class Posterior {
  private static final int PROPOSALS = 160;
  private static final int DRAWS = 96;
  private static final double SYMMETRY = 1e-6;
  private static final double LEAST_PIVOT = 1e-12;

  private final FitProblem problem;
  private final Batch batch;
  private final double[] best;
  private final double[][] covariance;

  Posterior(FitProblem problem, Batch batch, double[] best) {
    this.problem = problem;
    this.batch = batch;
    this.best = best;
    this.covariance = covarianceAt(best);
  }

  /** Covariance of the parameters. */
  double[][] covariance() {
    return covariance;
  }

  private double[][] covarianceAt(double[] at) {
    double[] value = problem.residuals(at);
    RealMatrix jacobian = new Array2DRowRealMatrix(problem.jacobian(at, value), false);
    RealMatrix normal = jacobian.transposeMultiply(jacobian);
    int size = problem.size();
    // In units of the prior's standard deviations the matrix is the unit matrix plus what the
    // trials tell: well conditioned, whatever the parameters' own scales.
    for (int row = 0; row < size; row++) {
      for (int column = 0; column < size; column++) {
        normal.multiplyEntry(row, column, problem.sigma(row) * problem.sigma(column));
      }
    }
    double[][] scaled;
    try {
      scaled =
          new CholeskyDecomposition(normal, SYMMETRY, LEAST_PIVOT)
              .getSolver()
              .getInverse()
              .getData();
    } catch (MathRuntimeException e) {
      scaled = new double[size][size];
      for (int k = 0; k < size; k++) {
        scaled[k][k] = 1 / Math.max(1, normal.getEntry(k, k));
      }
    }
    for (int row = 0; row < size; row++) {
      for (int column = 0; column < size; column++) {
        scaled[row][column] *= problem.sigma(row) * problem.sigma(column);
      }
    }
    return scaled;
  }

  /** A square root of the covariance; of its diagonal when it is not quite positive definite. */
  private RealMatrix root() {
    int size = problem.size();
    try {
      RealMatrix scaled = new Array2DRowRealMatrix(covariance, true);
      for (int row = 0; row < size; row++) {
        for (int column = 0; column < size; column++) {
          scaled.multiplyEntry(row, column, 1 / (problem.sigma(row) * problem.sigma(column)));
        }
      }
      RealMatrix lower = new CholeskyDecomposition(scaled, SYMMETRY, LEAST_PIVOT).getL();
      for (int row = 0; row < size; row++) {
        for (int column = 0; column <= row; column++) {
          lower.multiplyEntry(row, column, problem.sigma(row));
        }
      }
      return lower;
    } catch (MathRuntimeException e) {
      RealMatrix diagonal = new Array2DRowRealMatrix(size, size);
      for (int k = 0; k < size; k++) {
        diagonal.setEntry(k, k, Math.sqrt(Math.max(0, covariance[k][k])));
      }
      return diagonal;
    }
  }

  /** Gaussian proposals, weighted by true over proposal density, resampled. */
  List<double[]> draws(Random random) {
    RealMatrix root = root();
    int size = problem.size();
    boolean fresh = problem.trialCount() == 0;
    int proposals = fresh ? DRAWS : PROPOSALS;
    List<double[]> sample = new ArrayList<>();
    double[] squares = new double[proposals];
    for (int k = 0; k < proposals; k++) {
      double[] normal = new double[size];
      for (int j = 0; j < size; j++) {
        normal[j] = random.nextGaussian();
        squares[k] += normal[j] * normal[j];
      }
      double[] p = root.operate(normal);
      for (int j = 0; j < size; j++) {
        p[j] += best[j];
      }
      sample.add(p);
    }
    double[] logWeights = new double[proposals];
    if (!fresh) {
      double bestCost = problem.cost(best);
      List<Double> costs = batch.map(proposals, k -> problem.cost(sample.get(k)));
      for (int k = 0; k < proposals; k++) {
        logWeights[k] = 0.5 * (bestCost + squares[k] - costs.get(k));
      }
    }
    return resample(sample, logWeights, random);
  }

  private static List<double[]> resample(
      List<double[]> sample, double[] logWeights, Random random) {
    double[] weights = tempered(logWeights);
    double total = Arrays.stream(weights).sum();
    List<double[]> out = new ArrayList<>();
    double place = random.nextDouble() / DRAWS;
    double reached = 0;
    int k = 0;
    for (int j = 0; j < DRAWS; j++) {
      double goal = place + (double) j / DRAWS;
      while (k < weights.length - 1 && reached + weights[k] / total < goal) {
        reached += weights[k] / total;
        k++;
      }
      out.add(sample.get(k));
    }
    Collections.shuffle(out, random);
    return out;
  }

  /**
   * The linearised Gaussian is never far wrong; weights are tempered until a third of the proposals
   * count, so that a few lucky draws do not stand for all.
   */
  private static double[] tempered(double[] logWeights) {
    double most = Arrays.stream(logWeights).max().orElse(0);
    double[] weights = new double[logWeights.length];
    double temper = 1;
    for (int pass = 0; pass < 12; pass++) {
      double sum = 0;
      double squares = 0;
      for (int k = 0; k < weights.length; k++) {
        weights[k] = Math.exp(temper * Math.max(-60, logWeights[k] - most));
        sum += weights[k];
        squares += weights[k] * weights[k];
      }
      if (sum * sum / squares > weights.length / 3.0) {
        break;
      }
      temper *= 0.7;
    }
    return weights;
  }
}
