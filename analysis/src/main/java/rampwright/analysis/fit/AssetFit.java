package rampwright.analysis.fit;

import java.util.ArrayList;
import java.util.Collections;
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
  private static final double UNEXPLAINED_RESIDUAL = 1.5;
  private static final double TOLD_SHARE = 0.9;
  // Several trials leave fewer ways to explain them, and each costs as much again.
  private static final int STARTS = 6;
  private static final int FEWEST_STARTS = 3;
  // Readings many times as uncertain as they are make a smooth slope of what is rugged: a fall of
  // current that comes at the wrong time is felt from afar. Half of the descents begin wider than
  // the rest, so that valleys apart are still found apart.
  private static final double[] WIDEST = {6, 3};
  private static final double WIDE = 2.5;
  private static final int WIDEST_STEPS = 6;
  private static final int WIDE_STEPS = 3;
  private static final int FIRST_STEPS = 3;
  private static final int LAST_STEPS = 6;
  private static final int DOWN = 14;
  private static final double PROMISING = 1.5;

  private AssetFit() {}

  /** Fits an asset to its trials; with none, gives the prior. */
  public static FitResult fit(AssetData data, List<TrialObservation> trials) {
    return fit(data, trials, Batch.IN_TURN);
  }

  /** The same, with independent pieces of work handed to a batch. */
  public static FitResult fit(AssetData data, List<TrialObservation> trials, Batch batch) {
    FitProblem problem = new FitProblem(data, trials, batch);
    Random random = new Random(SEED);
    List<double[]> ends =
        trials.isEmpty()
            ? List.of(new FitDescent(problem).from(problem.centre(), DOWN))
            : ends(problem, batch, random);
    Posterior posterior =
        new Posterior(problem, batch, Valley.of(problem, batch, ends, Posterior.REACH));
    double[] best = posterior.best();
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

  /**
   * Where descents from several starts end: all go down a little, the more promising to the floor.
   */
  private static List<double[]> ends(FitProblem problem, Batch batch, Random random) {
    int count = Math.max(FEWEST_STARTS, STARTS / problem.trialCount());
    List<double[]> starts = new FitStarts(problem, batch).find(count, random);
    FitDescent descent = new FitDescent(problem);
    FitDescent wide = new FitDescent(problem.widened(WIDE));
    List<double[]> halfway =
        batch.map(
            count,
            k -> {
              FitDescent widest = new FitDescent(problem.widened(WIDEST[k % WIDEST.length]));
              double[] p = widest.from(starts.get(k), WIDEST_STEPS);
              return descent.from(wide.from(p, WIDE_STEPS), FIRST_STEPS);
            });
    List<Double> costs = batch.map(count, k -> problem.cost(halfway.get(k)));
    double least = Collections.min(costs);
    return batch.map(
        count,
        k ->
            costs.get(k) < PROMISING * least + Posterior.REACH
                ? descent.from(halfway.get(k), LAST_STEPS)
                : halfway.get(k));
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
