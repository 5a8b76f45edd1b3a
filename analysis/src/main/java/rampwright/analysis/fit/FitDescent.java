package rampwright.analysis.fit;

import org.hipparchus.exception.MathRuntimeException;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresBuilder;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LevenbergMarquardtOptimizer;

/** From a starting vector down to the nearest valley's floor, by Levenberg-Marquardt. */
final class FitDescent {
  private static final int MOST_ITERATIONS = 14;
  private static final double COST_TOLERANCE = 2e-3;
  private static final double PARAMETER_TOLERANCE = 1e-4;

  private final FitProblem problem;

  FitDescent(FitProblem problem) {
    this.problem = problem;
  }

  /** The best vector met on the way down. */
  double[] from(double[] start) {
    double[][] best = {start};
    double[] bestCost = {Double.POSITIVE_INFINITY};
    try {
      new LevenbergMarquardtOptimizer()
          .withCostRelativeTolerance(COST_TOLERANCE)
          .withParameterRelativeTolerance(PARAMETER_TOLERANCE)
          .optimize(
              new LeastSquaresBuilder()
                  .start(start)
                  .model(
                      at -> {
                        double[] value = problem.residuals(at);
                        double cost = 0;
                        for (double r : value) {
                          cost += r * r;
                        }
                        if (cost < bestCost[0]) {
                          bestCost[0] = cost;
                          best[0] = at.clone();
                        }
                        return value;
                      },
                      at -> problem.jacobian(at, problem.residuals(at)))
                  .target(new double[problem.rows()])
                  .lazyEvaluation(true)
                  .maxEvaluations(4 * MOST_ITERATIONS)
                  .maxIterations(MOST_ITERATIONS)
                  .build());
    } catch (MathRuntimeException e) {
      // Out of evaluations: the best point so far is kept.
      return best[0];
    }
    return best[0];
  }
}
