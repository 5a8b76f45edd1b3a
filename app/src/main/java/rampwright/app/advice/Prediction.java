package rampwright.app.advice;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.fit.Batch;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.RunFigure;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.Supply;

/** What settings will do: figures with their ranges over the model's draws. */
final class Prediction {
  // Fewer draws make no range.
  private static final double SOME = 0.1;
  private static final double SURELY = 0.97;

  private final AdviceRequest request;
  private final Chances chances;
  private final Batch batch;
  private final List<MachineModel> models;
  private final double[] weights;
  private final long seed;

  /**
   * @param weights what each model counts for
   */
  Prediction(
      AdviceRequest request,
      Chances chances,
      Batch batch,
      List<MachineModel> models,
      double[] weights,
      long seed) {
    this.request = request;
    this.chances = chances;
    this.batch = batch;
    this.models = models;
    this.weights = weights;
    this.seed = seed;
  }

  /** Simulated trials with these settings, one for each draw. */
  List<Rehearsal> runs(StarterSettings settings) {
    return batch.map(
        models.size(),
        k -> chances.rehearsal(chances.whole(models.get(k), settings), models.get(k), settings));
  }

  /**
   * Median and 5 to 95 % range of every figure over the draws on which the start reaches full
   * speed, and of limited figures that follow from one of them. Where next to none does, over all.
   */
  Map<String, Advice.Range> figures(List<Rehearsal> runs) {
    Random random = new Random(seed);
    boolean some = Rehearsal.completing(runs, weights) >= SOME;
    Map<String, Advice.Range> out = new LinkedHashMap<>();
    for (RunFigure figure : RunFigure.values()) {
      Advice.Range range = range(runs, some, random, figure, seen -> 1);
      if (range != null) {
        out.put(figure.key(), range);
      }
    }
    derived(out);
    return out;
  }

  /** Dip at the starter behind the cable; null where voltages are measured at the starter. */
  Advice.@Nullable Range starterDipPct(List<Rehearsal> runs) {
    return request.asset().cable().equals(Supply.NONE)
        ? null
        : range(
            runs,
            Rehearsal.completing(runs, weights) >= SOME,
            new Random(seed),
            RunFigure.VOLTAGE_DIP,
            Rehearsal::starterDipShare);
  }

  /**
   * The range of a figure times something of the same run; null where too few draws have it.
   *
   * @param completed whether only draws on which the start reaches full speed count
   * @param factor of a run; NaN leaves it out
   */
  private Advice.@Nullable Range range(
      List<Rehearsal> runs,
      boolean completed,
      Random random,
      RunFigure figure,
      ToDoubleFunction<Rehearsal> factor) {
    WeightedValues values = new WeightedValues();
    for (int k = 0; k < runs.size(); k++) {
      Rehearsal seen = runs.get(k);
      double times = factor.applyAsDouble(seen);
      double value = times * seen.of(figure);
      double spread = random.nextGaussian();
      if (!Double.isNaN(value) && (!completed || seen.run().completed())) {
        values.add(value + spread * times * seen.sigma(figure), weights[k]);
      }
    }
    return values.weight() >= SOME * Arrays.stream(weights).sum()
        ? new Advice.Range(values.at(0.5), values.at(0.05), values.at(0.95))
        : null;
  }

  /**
   * What to mind: whether the start may fail, and the ratings.
   *
   * @param likely the trial on the most likely model
   */
  List<String> cautions(List<Rehearsal> runs, Rehearsal likely) {
    List<String> out = new ArrayList<>();
    double completing = Rehearsal.completing(runs, weights);
    if (completing < SURELY) {
      out.add(
          String.format(
              Locale.ROOT,
              "May not start: on %.0f %% of the models that fit what is known full speed is not"
                  + " reached; be ready to stop the trial. The figures are of those that do.",
              100 * (1 - completing)));
    }
    out.addAll(request.ratings().cautions(likely));
    return out;
  }

  private void derived(Map<String, Advice.Range> out) {
    for (FigureLimit limit : request.limits()) {
      RunFigure figure = limit.figure();
      Advice.Range range = figure == null ? null : out.get(figure.key());
      if (range != null) {
        double f = limit.factor();
        out.putIfAbsent(
            limit.key(), new Advice.Range(f * range.median(), f * range.low(), f * range.high()));
      }
    }
  }
}
