package rampwright.analysis.fit;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import rampwright.analysis.machine.MachineModel;

/**
 * What a fit came to.
 *
 * <p>The vector holds {@link AssetParameters#NAMES} and then, for each trial, the logarithm of its
 * load over the asset's usual, how much later than dated its stop order came, s, and the logarithm
 * of its breakaway torque over the usual at that load.
 */
public final class FitResult {

  /** Whether the model explains the trials. */
  public enum Status {
    /** No trial yet: priors only. */
    NAMEPLATE,
    /** The residual is what the stated errors allow. */
    FITTED,
    /** The model does not explain a trial; its predictions are not to be leaned on. */
    UNEXPLAINED
  }

  /**
   * Standard deviation, relative, of a trial's breakaway torque from the usual; common practice, no
   * source.
   */
  public static final double BREAKAWAY_SCATTER = 0.07;

  private final AssetParameters parameters;
  private final Status status;
  private final double[] best;
  private final double[][] covariance;
  private final double residual;
  private final double[] trialResiduals;
  private final List<String> atPrior;
  private final List<double[]> draws;

  FitResult(
      AssetParameters parameters,
      Status status,
      double[] best,
      double[][] covariance,
      double residual,
      double[] trialResiduals,
      List<String> atPrior,
      List<double[]> draws) {
    this.parameters = parameters;
    this.status = status;
    this.best = best;
    this.covariance = covariance;
    this.residual = residual;
    this.trialResiduals = trialResiduals;
    this.atPrior = List.copyOf(atPrior);
    this.draws = draws;
  }

  public Status status() {
    return status;
  }

  /**
   * Root mean square of the weighted residuals; about 1 or less when the model explains the trials.
   */
  public double residual() {
    return residual;
  }

  /** The same for each trial. */
  public double[] trialResiduals() {
    return trialResiduals.clone();
  }

  /** Parameter vector of highest posterior density. */
  public double[] best() {
    return best.clone();
  }

  /** Posterior covariance of {@link #best}. */
  public double[][] covariance() {
    double[][] copy = new double[covariance.length][];
    for (int k = 0; k < copy.length; k++) {
      copy[k] = covariance[k].clone();
    }
    return copy;
  }

  /** Standard deviation of a parameter. */
  public double sigma(int parameter) {
    return Math.sqrt(covariance[parameter][parameter]);
  }

  /** Relative standard deviation of the inertia of motor and load. */
  public double inertiaSigma() {
    return parameters.inertiaSigma(best, sigma(AssetParameters.INERTIA));
  }

  /** Names of the parameters the trials told nothing about. */
  public List<String> atPrior() {
    return atPrior;
  }

  /** The model of highest posterior density, at a source voltage. */
  public MachineModel bestModel(double sourceVoltageV) {
    return parameters.model(best, parameters.table(best), sourceVoltageV, 0, 0);
  }

  /** Number of posterior draws kept. */
  public int drawCount() {
    return draws.size();
  }

  /**
   * Models of the posterior draws, each with its own next-trial scatter of load and source voltage.
   *
   * @param count at most {@link #drawCount}
   * @param sourceVoltageV middle of the source voltage
   * @param sourceSigma its relative standard deviation from trial to trial
   * @param random seeded by the caller
   */
  public List<MachineModel> models(
      int count, double sourceVoltageV, double sourceSigma, Random random) {
    List<MachineModel> models = new ArrayList<>();
    for (int k = 0; k < Math.min(count, draws.size()); k++) {
      double[] p = draws.get(k);
      models.add(
          parameters.model(
              p,
              parameters.table(p),
              sourceVoltageV * (1 + sourceSigma * random.nextGaussian()),
              AssetPrior.LOAD_SCATTER * random.nextGaussian(),
              0));
    }
    return models;
  }

  /**
   * Models of one fitted trial as it was: the best first, then posterior draws, each with the load
   * that trial had.
   *
   * @param trial number of the trial in the fit, from 0
   * @param count number of draws, at most {@link #drawCount}
   * @param sourceVoltageV line voltage before that trial's start
   */
  public List<MachineModel> trialModels(int trial, int count, double sourceVoltageV) {
    List<MachineModel> models = new ArrayList<>();
    models.add(parameters.modelOfTrial(best, parameters.table(best), sourceVoltageV, trial));
    for (int k = 0; k < Math.min(count, draws.size()); k++) {
      double[] p = draws.get(k);
      models.add(parameters.modelOfTrial(p, parameters.table(p), sourceVoltageV, trial));
    }
    return models;
  }
}
