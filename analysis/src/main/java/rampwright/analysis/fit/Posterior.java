package rampwright.analysis.fit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;

/**
 * What is left uncertain after a fit: draws from the Gaussians of the valleys that were found, each
 * valley with the share its evidence gives it, reweighted by their true density and resampled.
 *
 * <p>Without a speed channel a trial can often be explained in several ways, a light machine under
 * much load and a heavy one under little; the best alone would be far too sure of itself.
 */
final class Posterior {
  private static final int PROPOSALS = 160;
  private static final int DRAWS = 96;

  /** A valley this much higher, in cost, than the deepest is not looked at. */
  static final double REACH = 16;

  // The model's own errors are alike over a trial: half of a difference in cost is theirs.
  private static final double DOUBT = 2;

  private final Residuals problem;
  private final Batch batch;
  private final List<Valley> valleys;
  private final double[] shares;

  Posterior(Residuals problem, Batch batch, List<Valley> valleys) {
    this.problem = problem;
    this.batch = batch;
    this.valleys = valleys;
    shares = new double[valleys.size()];
    double most = valleys.stream().mapToDouble(Valley::logEvidence).max().orElse(0);
    double total = 0;
    for (int k = 0; k < shares.length; k++) {
      shares[k] = Math.exp((valleys.get(k).logEvidence() - most) / DOUBT);
      total += shares[k];
    }
    for (int k = 0; k < shares.length; k++) {
      shares[k] /= total;
    }
  }

  /** The vector of highest density. */
  double[] best() {
    return valleys.get(0).floor();
  }

  /** Covariance of the parameters over all valleys, about the deepest. */
  double[][] covariance() {
    int size = problem.size();
    double[][] out = new double[size][size];
    for (int k = 0; k < shares.length; k++) {
      Valley valley = valleys.get(k);
      for (int row = 0; row < size; row++) {
        double off = valley.floor()[row] - best()[row];
        for (int column = 0; column < size; column++) {
          double other = valley.floor()[column] - best()[column];
          out[row][column] += shares[k] * (valley.covariance(row, column) + off * other);
        }
      }
    }
    return out;
  }

  /** Draws, shuffled. */
  List<double[]> draws(Random random) {
    List<double[]> out = new ArrayList<>();
    double until = 0;
    for (int k = 0; k < shares.length; k++) {
      until += shares[k];
      int count = (int) Math.round(DRAWS * until) - out.size();
      if (count > 0) {
        out.addAll(draws(valleys.get(k), count, random));
      }
    }
    Collections.shuffle(out, random);
    return out;
  }

  private List<double[]> draws(Valley valley, int count, Random random) {
    boolean fresh = !problem.hasTrials();
    int proposals = fresh ? count : count * PROPOSALS / DRAWS + 1;
    List<double[]> sample = new ArrayList<>();
    double[] squares = new double[proposals];
    for (int k = 0; k < proposals; k++) {
      double[] normal = new double[problem.size()];
      for (int j = 0; j < normal.length; j++) {
        normal[j] = random.nextGaussian();
        squares[k] += normal[j] * normal[j];
      }
      sample.add(valley.draw(normal));
    }
    double[] logWeights = new double[proposals];
    if (!fresh) {
      List<Double> costs = batch.map(proposals, k -> problem.cost(sample.get(k)));
      for (int k = 0; k < proposals; k++) {
        logWeights[k] = 0.5 * (valley.cost() + squares[k] - costs.get(k));
      }
    }
    return resample(sample, logWeights, count, random);
  }

  private static List<double[]> resample(
      List<double[]> sample, double[] logWeights, int count, Random random) {
    double[] weights = tempered(logWeights);
    double total = Arrays.stream(weights).sum();
    List<double[]> out = new ArrayList<>();
    double place = random.nextDouble() / count;
    double reached = 0;
    int k = 0;
    for (int j = 0; j < count; j++) {
      double goal = place + (double) j / count;
      while (k < weights.length - 1 && reached + weights[k] / total < goal) {
        reached += weights[k] / total;
        k++;
      }
      out.add(sample.get(k));
    }
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
