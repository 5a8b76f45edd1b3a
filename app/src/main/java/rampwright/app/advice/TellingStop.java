package rampwright.app.advice;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.fit.Batch;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.StopMode;
import rampwright.analysis.machine.Trajectory;

/**
 * The stop whose current tells most of how the machine slows down, for a machine whose speed no
 * channel shows: a stop made again the same way would tell the same again.
 *
 * <p>Formula: sum over the stop of dt ln(1 + v / s^2) / 2, v the variance of the current ratio over
 * the draws, s = {@value #NOISE}: what a reading every second tells of which draw is right, for
 * readings that are independent and normal.
 */
final class TellingStop {
  private static final double NOISE = 0.03;
  private static final int INSTANTS = 60;
  private static final int MODELS = 16;

  /** Share of the best chance that is given up at most. */
  private static final double HALF = 0.5;

  private final Chances chances;
  private final Batch batch;
  private final List<MachineModel> models;

  TellingStop(Chances chances, Batch batch, List<MachineModel> models) {
    this.chances = chances;
    this.batch = batch;
    this.models = models.subList(0, Math.min(MODELS, models.size()));
  }

  /**
   * The soft stop that tells most; null when there is none.
   *
   * @param stops what may be set
   * @param stopChance chance of the limits on the stop
   * @param best the largest of these chances; stops with less than half of it are left out
   */
  @Nullable StarterSettings of(
      List<StarterSettings> stops, ToDoubleFunction<StarterSettings> stopChance, double best) {
    List<StarterSettings> soft = new ArrayList<>(stops);
    soft.removeIf(each -> each.stop() != StopMode.SOFT);
    List<Double> told = batch.map(soft.size(), k -> told(soft.get(k)));
    List<Integer> order = new ArrayList<>();
    for (int k = 0; k < soft.size(); k++) {
      order.add(k);
    }
    order.sort((a, b) -> Double.compare(told.get(b), told.get(a)));
    for (int k : order) {
      if (stopChance.applyAsDouble(soft.get(k)) >= HALF * best) {
        return soft.get(k);
      }
    }
    return null;
  }

  /** What the current of a stop tells of which model is right. */
  double told(StarterSettings settings) {
    List<Trajectory> runs = new ArrayList<>();
    double longest = 0;
    for (MachineModel model : models) {
      Trajectory run = chances.stop(model, settings);
      runs.add(run);
      longest = Math.max(longest, run.instants().releaseS());
    }
    double step = longest / INSTANTS;
    double sum = 0;
    for (int n = 0; n < INSTANTS; n++) {
      double at = (n + 0.5) * step;
      double mean = 0;
      double square = 0;
      for (Trajectory run : runs) {
        double current = at < run.instants().releaseS() ? run.currentRatio(run.indexAt(at)) : 0;
        mean += current / runs.size();
        square += current * current / runs.size();
      }
      double variance = Math.max(0, square - mean * mean);
      sum += step * 0.5 * Math.log1p(variance / (NOISE * NOISE));
    }
    return sum;
  }
}
