package rampwright.app.advice;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.ToDoubleBiFunction;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.machine.RunFigure;
import rampwright.analysis.machine.Trajectory;

/**
 * A predicted course over time: the 5 %, 50 % and 95 % points over the model's draws.
 *
 * <p>Shape: arrays of one length; the arrays are not to be written to.
 *
 * @param timeS time after current inception, s
 * @param low 5 % points
 * @param median 50 % points
 * @param high 95 % points
 */
public record Course(double[] timeS, double[] low, double[] median, double[] high) {
  private static final int POINTS = 400;
  private static final long SEED = 314163L;

  // Fewer draws make no range; where as many do not come to full speed, these are shown as well.
  private static final double SOME = 0.1;

  // What a few last draws do long after the rest is over is not worth most of a picture.
  private static final double MOST_OVER = 0.97;

  /**
   * Course of one quantity over simulated runs, those that come to full speed unless next to none
   * does; null without runs.
   *
   * @param weights what each run counts for
   * @param stopping figure that says how long what is shown lasts from the stop order on
   */
  static @Nullable Course of(
      List<Rehearsal> all,
      double[] weights,
      RunFigure stopping,
      ToDoubleBiFunction<Trajectory, Integer> quantity) {
    Random random = new Random(SEED);
    boolean completed = Rehearsal.completing(all, weights) >= SOME;
    List<PacedRun> runs = new ArrayList<>();
    List<Double> weight = new ArrayList<>();
    WeightedValues ends = new WeightedValues();
    for (int k = 0; k < all.size(); k++) {
      PacedRun run = PacedRun.of(all.get(k), stopping, random);
      if (!completed || all.get(k).run().completed()) {
        runs.add(run);
        weight.add(weights[k]);
        ends.add(run.endS(), weights[k]);
      }
    }
    double endS = runs.isEmpty() ? 0 : ends.at(MOST_OVER);
    if (!(endS > 0)) {
      return null;
    }
    double[] timeS = new double[POINTS];
    double[] low = new double[POINTS];
    double[] median = new double[POINTS];
    double[] high = new double[POINTS];
    for (int k = 0; k < POINTS; k++) {
      timeS[k] = endS * k / (POINTS - 1);
      WeightedValues values = new WeightedValues();
      for (int r = 0; r < runs.size(); r++) {
        values.add(runs.get(r).at(timeS[k], quantity), weight.get(r));
      }
      low[k] = values.at(0.05);
      median[k] = values.at(0.5);
      high[k] = values.at(0.95);
    }
    return new Course(timeS, low, median, high);
  }
}
