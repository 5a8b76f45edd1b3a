package rampwright.analysis.fit;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import rampwright.analysis.machine.PlateCircuit;

/**
 * Maximum a posteriori fit of an asset's parameters to all its trials together, and draws from the
 * posterior.
 *
 * <p>Least squares over the residuals of all trials, the priors and the plate numbers ({@link
 * FitProblem}), by Levenberg-Marquardt ({@link FitDescent}) from the best of a seeded random sample
 * of the prior ({@link FitStarts}). Posterior: the Gaussian of the linearised problem, its draws
 * reweighted by their true density and resampled ({@link Posterior}).
 */
public final class AssetFit {
  private static final long SEED = 20260314L;
  private static final double UNEXPLAINED_RESIDUAL = 2.2;
  private static final double TOLD_SHARE = 0.9;

  private AssetFit() {}

  /** Fits an asset to its trials; with none, gives the prior. */
  public static FitResult fit(AssetData data, List<TrialObservation> trials) {
    return fit(data, trials, Batch.IN_TURN);
  }

  /** The same, with independent pieces of work handed to a batch. */
  public static FitResult fit(AssetData data, List<TrialObservation> trials, Batch batch) {
    FitProblem problem = new FitProblem(data, trials, batch);
    Random random = new Random(SEED);
    double[] best = problem.centre();
    if (!trials.isEmpty()) {
      double bestCost = problem.cost(best);
      FitDescent descent = new FitDescent(problem);
      for (double[] start : new FitStarts(problem, batch).find(random)) {
        double[] found = descent.from(start);
        double cost = problem.cost(found);
        if (cost < bestCost) {
          bestCost = cost;
          best = found;
        }
      }
    } else {
      best = new FitDescent(problem).from(best);
    }
    Posterior posterior = new Posterior(problem, batch, best);
    double[] each = problem.trialResiduals(best);
    double residual = 0;
    for (double one : each) {
      residual = Math.max(residual, one);
    }
    FitResult.Status status =
        trials.isEmpty()
            ? FitResult.Status.NAMEPLATE
            : residual > UNEXPLAINED_RESIDUAL
                ? FitResult.Status.UNEXPLAINED
                : FitResult.Status.FITTED;
    double[][] covariance = posterior.covariance();
    return new FitResult(
        problem.parameters(),
        status,
        best,
        covariance,
        residual,
        each,
        untold(problem, covariance),
        posterior.draws(random));
  }

  private static List<String> untold(FitProblem problem, double[][] covariance) {
    List<String> names = new ArrayList<>();
    for (int k = 0; k < AssetParameters.COUNT; k++) {
      boolean circuit =
          k >= AssetParameters.CIRCUIT && k < AssetParameters.CIRCUIT + PlateCircuit.PARTS;
      if (problem.active(k)
          && !circuit
          && Math.sqrt(covariance[k][k]) > TOLD_SHARE * problem.sigma(k)) {
        names.add(AssetParameters.NAMES.get(k));
      }
    }
    return names;
  }
}
