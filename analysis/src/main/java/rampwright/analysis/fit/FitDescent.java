package rampwright.analysis.fit;

import java.util.Arrays;
import org.hipparchus.exception.MathRuntimeException;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresBuilder;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LevenbergMarquardtOptimizer;
import org.jspecify.annotations.Nullable;

/** From a starting vector down to the nearest valley's floor, by Levenberg-Marquardt. */
final class FitDescent {
  private static final double COST_TOLERANCE = 2e-3;
  private static final double PARAMETER_TOLERANCE = 1e-4;
  private static final int EVALUATIONS_EACH = 4;
  private static final int ALL_DERIVATIVES_EVERY = 4;

  private final FitProblem problem;

  FitDescent(FitProblem problem) {
    this.problem = problem;
  }

  /** The best vector met on the way down in so many iterations. */
  double[] from(double[] start, int mostIterations) {
    Way way = new Way(problem, start);
    try {
      new LevenbergMarquardtOptimizer()
          .withCostRelativeTolerance(COST_TOLERANCE)
          .withParameterRelativeTolerance(PARAMETER_TOLERANCE)
          .optimize(
              new LeastSquaresBuilder()
                  .start(start)
                  .model(way::residuals, way::derivatives)
                  .target(new double[problem.rows()])
                  .lazyEvaluation(true)
                  .maxEvaluations(EVALUATIONS_EACH * mostIterations)
                  .maxIterations(mostIterations)
                  .build());
    } catch (MathRuntimeException e) {
      // Out of evaluations: the best point so far is kept.
      return way.best;
    }
    return way.best;
  }

  /** What was seen on one way down; the optimiser asks for the same point several times. */
  private static final class Way {
    private final FitProblem problem;
    private double[] best;
    private double bestCost = Double.POSITIVE_INFINITY;
    private double @Nullable [] lastAt;
    private double[] last = new double[0];
    private double @Nullable [][] jacobian;
    private int asked;

    Way(FitProblem problem, double[] start) {
      this.problem = problem;
      this.best = start;
    }

    double[] residuals(double[] at) {
      if (lastAt == null || !Arrays.equals(at, lastAt)) {
        lastAt = at.clone();
        last = problem.residuals(at);
        double cost = 0;
        for (double r : last) {
          cost += r * r;
        }
        if (cost < bestCost) {
          bestCost = cost;
          best = lastAt;
        }
      }
      return last.clone();
    }

    double[][] derivatives(double[] at) {
      boolean all = asked++ % ALL_DERIVATIVES_EVERY == 0;
      double[][] found = problem.jacobian(at, residuals(at), all ? null : jacobian);
      jacobian = found;
      double[][] copy = new double[found.length][];
      for (int k = 0; k < copy.length; k++) {
        copy[k] = found[k].clone();
      }
      return copy;
    }
  }
}
