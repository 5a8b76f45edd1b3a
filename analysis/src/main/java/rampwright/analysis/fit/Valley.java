package rampwright.analysis.fit;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.hipparchus.exception.MathRuntimeException;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.RealMatrix;

/**
 * One way of explaining the trials: where a descent ended, and the Gaussian of the problem
 * linearised there.
 *
 * <p>Matrices are in units of the prior's standard deviations, in which the normal matrix is the
 * unit matrix plus what the trials tell: well conditioned, whatever the parameters' own scales.
 */
final class Valley {
  private static final double SYMMETRY = 1e-6;
  private static final double LEAST_PIVOT = 1e-12;
  private static final double LEAST_VARIANCE = 1e-18;
  // Squared distance, in standard deviations, below which two descents ended in the same place.
  private static final double SAME = 4;

  private final Residuals problem;
  private final double[] floor;
  private final double cost;
  private final RealMatrix normal;
  private final RealMatrix covariance;
  private final RealMatrix root;

  private Valley(Residuals problem, double[] floor, double cost) {
    this.problem = problem;
    this.floor = floor;
    this.cost = cost;
    normal = normalAt(problem, floor);
    int size = problem.size();
    RealMatrix inverse;
    RealMatrix lower;
    try {
      inverse = new CholeskyDecomposition(normal, SYMMETRY, LEAST_PIVOT).getSolver().getInverse();
      lower = new CholeskyDecomposition(inverse, SYMMETRY, LEAST_PIVOT).getL();
    } catch (MathRuntimeException e) {
      // Not quite positive definite: its diagonal.
      inverse = new Array2DRowRealMatrix(size, size);
      lower = new Array2DRowRealMatrix(size, size);
      for (int k = 0; k < size; k++) {
        double variance = 1 / Math.max(1, normal.getEntry(k, k));
        inverse.setEntry(k, k, variance);
        lower.setEntry(k, k, Math.sqrt(variance));
      }
    }
    covariance = inverse;
    root = lower;
  }

  /** The valleys that descents ended in, each once, the deepest first. */
  static List<Valley> of(Residuals problem, Batch batch, List<double[]> ends, double reach) {
    record End(double[] at, double cost) {}
    List<End> sorted =
        new ArrayList<>(
            batch.map(ends.size(), k -> new End(ends.get(k), problem.cost(ends.get(k)))));
    sorted.sort(Comparator.comparingDouble(End::cost));
    sorted.removeIf(end -> end.cost() > sorted.get(0).cost() + reach);
    List<Valley> all =
        batch.map(
            sorted.size(), k -> new Valley(problem, sorted.get(k).at(), sorted.get(k).cost()));
    List<Valley> out = new ArrayList<>();
    for (Valley each : all) {
      if (out.stream().noneMatch(other -> other.distance(each.floor) < SAME)) {
        out.add(each);
      }
    }
    return out;
  }

  private static RealMatrix normalAt(Residuals problem, double[] at) {
    double[][] rows = problem.jacobian(at, problem.residuals(at));
    for (double[] row : rows) {
      for (int k = 0; k < row.length; k++) {
        row[k] *= problem.sigma(k);
      }
    }
    RealMatrix jacobian = new Array2DRowRealMatrix(rows, false);
    return jacobian.transposeMultiply(jacobian);
  }

  double[] floor() {
    return floor;
  }

  double cost() {
    return cost;
  }

  /** Logarithm of the probability in it, but for a constant: its height times its volume. */
  double logEvidence() {
    double volume = 0;
    for (int k = 0; k < problem.size(); k++) {
      volume += 0.5 * Math.log(Math.max(LEAST_VARIANCE, square(root.getEntry(k, k))));
    }
    return volume - 0.5 * cost;
  }

  /** Covariance of two parameters in this valley. */
  double covariance(int row, int column) {
    return covariance.getEntry(row, column) * problem.sigma(row) * problem.sigma(column);
  }

  /** The vector that a standard normal one becomes. */
  double[] draw(double[] standardNormal) {
    double[] p = root.operate(standardNormal);
    for (int k = 0; k < p.length; k++) {
      p[k] = floor[k] + p[k] * problem.sigma(k);
    }
    return p;
  }

  /** Squared distance of a vector from the floor, in standard deviations. */
  private double distance(double[] p) {
    double[] off = new double[p.length];
    for (int k = 0; k < p.length; k++) {
      off[k] = (p[k] - floor[k]) / problem.sigma(k);
    }
    double sum = 0;
    double[] weighed = normal.operate(off);
    for (int k = 0; k < p.length; k++) {
      sum += off[k] * weighed[k];
    }
    return sum;
  }

  private static double square(double x) {
    return x * x;
  }
}
