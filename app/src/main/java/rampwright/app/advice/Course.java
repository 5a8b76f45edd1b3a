package rampwright.app.advice;

import java.util.List;
import java.util.function.ToDoubleBiFunction;
import org.jspecify.annotations.Nullable;
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

  /**
   * Course of one quantity over simulated runs; null without runs.
   *
   * @param weights what each run counts for
   */
  static @Nullable Course of(
      List<Trajectory> runs, double[] weights, ToDoubleBiFunction<Trajectory, Integer> quantity) {
    double endS = 0;
    for (Trajectory run : runs) {
      if (run.size() > 0) {
        endS = Math.max(endS, run.timeS(run.size() - 1));
      }
    }
    if (runs.isEmpty() || !(endS > 0)) {
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
        values.add(at(runs.get(r), timeS[k], quantity), weights[r]);
      }
      low[k] = values.at(0.05);
      median[k] = values.at(0.5);
      high[k] = values.at(0.95);
    }
    return new Course(timeS, low, median, high);
  }

  /** Linear between points; a run that is over stays at its last value: at rest, no current. */
  private static double at(
      Trajectory run, double atS, ToDoubleBiFunction<Trajectory, Integer> quantity) {
    int last = run.size() - 1;
    if (last < 0) {
      return 0;
    }
    int k = Math.min(last, Math.max(0, run.indexAt(atS)));
    double here = quantity.applyAsDouble(run, k);
    if (k == last || run.timeS(k + 1) <= run.timeS(k)) {
      return here;
    }
    double share =
        Math.min(1, Math.max(0, (atS - run.timeS(k)) / (run.timeS(k + 1) - run.timeS(k))));
    return here + share * (quantity.applyAsDouble(run, k + 1) - here);
  }
}
