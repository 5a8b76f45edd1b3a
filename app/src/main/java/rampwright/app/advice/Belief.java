package rampwright.app.advice;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import rampwright.analysis.fit.Batch;
import rampwright.analysis.fit.FitResult;
import rampwright.analysis.machine.LoadCurve;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.StarterSettings;

/**
 * The models that may be right, what each counts for, and the chances over all of them.
 *
 * <p>All count alike until {@link #believe} weighs them.
 */
final class Belief {
  // Limits that can be met, as a share of all; and of models drawn from the prior, common practice.
  private static final double ACHIEVABLE = 0.8;
  private static final double ACHIEVABLE_BY_CHANCE = 0.15;
  private static final double REACHED = 0.5;

  private final Chances chances;
  private final Batch batch;
  private final MachineModel best;
  private final List<MachineModel> models;
  private final double[] weights;

  /**
   * @param best the most likely model
   */
  Belief(Chances chances, Batch batch, MachineModel best, List<MachineModel> models) {
    this.chances = chances;
    this.batch = batch;
    this.best = best;
    this.models = List.copyOf(models);
    weights = new double[models.size()];
    Arrays.fill(weights, 1);
  }

  MachineModel best() {
    return best;
  }

  List<MachineModel> models() {
    return models;
  }

  /** What each model counts for. */
  double[] weights() {
    return weights.clone();
  }

  /**
   * Breakaway differs from trial to trial by more than the load does; of a single trial made it is
   * not known how usual that one was.
   */
  static List<MachineModel> unsteady(List<MachineModel> models, int trials, long seed) {
    Random random = new Random(seed);
    double sigma = FitResult.BREAKAWAY_SCATTER * (trials > 1 ? 1 : Math.sqrt(2));
    List<MachineModel> out = new ArrayList<>();
    for (MachineModel m : models) {
      LoadCurve l = m.load();
      out.add(
          m.withLoad(
              new LoadCurve(
                  l.fullTorque(),
                  l.minimumTorque(),
                  l.breakawayTorque() * Math.exp(sigma * random.nextGaussian()),
                  l.exponent(),
                  l.breakawayWidth())));
    }
    return out;
  }

  /** Weighs the draws by how they bear out the trials made. */
  void heed(Lessons lessons) {
    Arrays.setAll(weights, lessons::weight);
  }

  /**
   * Weighs the draws by whether any settings meet the limits on them: whoever set the limits most
   * likely had reason to think that they can be met. Bayes: weight = share / usual x reach + (1 -
   * share), share = how often limits are achievable, usual = how often a draw of the prior happens
   * to be.
   */
  void believe(double[] reach) {
    for (int k = 0; k < weights.length; k++) {
      double achievable = Math.min(1, reach[k] / REACHED);
      weights[k] *= ACHIEVABLE / ACHIEVABLE_BY_CHANCE * achievable + 1 - ACHIEVABLE;
    }
  }

  /** Chance of start and stop on each model. */
  private List<Double> chances(StarterSettings settings, double caution) {
    return batch.map(
        models.size(),
        k ->
            chances.ofStart(models.get(k), settings, caution, false)
                * (chances.stops().isEmpty()
                    ? 1
                    : chances.ofStop(models.get(k), settings, caution)));
  }

  /** Joint chance of start and stop over all models alike. */
  double chance(StarterSettings settings, double caution) {
    double sum = 0;
    for (double one : chances(settings, caution)) {
      sum += one;
    }
    return sum / models.size();
  }

  /** The same over the models as weighed by {@link #believe}. */
  double told(StarterSettings settings) {
    return weighed(chances(settings, 1));
  }

  double startTold(StarterSettings settings) {
    return weighed(
        batch.map(models.size(), k -> chances.ofStart(models.get(k), settings, 1, false)));
  }

  double stopTold(StarterSettings settings) {
    return chances.stops().isEmpty()
        ? 1
        : weighed(batch.map(models.size(), k -> chances.ofStop(models.get(k), settings, 1)));
  }

  private double weighed(List<Double> each) {
    double sum = 0;
    double total = 0;
    for (int k = 0; k < weights.length; k++) {
      sum += weights[k] * each.get(k);
      total += weights[k];
    }
    return sum / total;
  }

  /**
   * The model to tell and draw a trial by: the most likely one, unless the start fails on it while
   * it does on no more than half of what the draws count for; then the draw that counts for most of
   * those on which it does not.
   */
  MachineModel likely(StarterSettings settings) {
    if (chances.start(best, settings).completed()) {
      return best;
    }
    List<Boolean> completed =
        batch.map(models.size(), k -> chances.start(models.get(k), settings).completed());
    double share = 0;
    double all = 0;
    int most = -1;
    for (int k = 0; k < weights.length; k++) {
      all += weights[k];
      if (completed.get(k)) {
        share += weights[k];
        most = most < 0 || weights[k] > weights[most] ? k : most;
      }
    }
    return share > 0.5 * all ? models.get(most) : best;
  }
}
