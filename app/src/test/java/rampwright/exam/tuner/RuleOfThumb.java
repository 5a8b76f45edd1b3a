package rampwright.exam.tuner;

import java.nio.file.Path;
import java.util.Map;
import rampwright.exam.plant.Limits;
import rampwright.exam.plant.PlantSettings;
import rampwright.exam.plant.Setting;
import rampwright.exam.plant.TrueFigures;

/**
 * What people do now: one thing at a time by a usual amount, given exact figures.
 *
 * <p>Rules (common practice, no source): did not start: more limit where it acts, else more to
 * begin with; peak or dip too high: lower limit; too slow or too hot: more limit where it acts,
 * else a shorter ramp; too quick: a longer ramp; the stop once the start is right: a longer or
 * shorter ramp.
 */
public final class RuleOfThumb implements Adviser {
  @Override
  public String name() {
    return "rule of thumb";
  }

  @Override
  public Proposal next(Path folder, Told told) {
    PlantSettings s = told.last().settings();
    TrueFigures f = told.last().figures();
    Map<String, Limits.Limit> limits = told.limits().byFigure();
    PlantSettings next = start(s, f, limits);
    if (next.equals(s)) {
      next = stop(s, f, limits);
    }
    return new Proposal(next.equals(s) ? "keep" : "change", next, Double.NaN);
  }

  private static PlantSettings start(
      PlantSettings s, TrueFigures f, Map<String, Limits.Limit> limits) {
    double limit = s.get(Setting.CURRENT_LIMIT);
    double ramp = s.get(Setting.RAMP_UP);
    double peak = f.get("peak_current_ratio");
    boolean acts = peak > 0.96 * limit;
    if (!f.completed()) {
      return acts
          ? s.with(Setting.CURRENT_LIMIT, limit + 0.3)
          : s.with(Setting.INITIAL_TORQUE, s.get(Setting.INITIAL_TORQUE) + 10)
              .with(Setting.INITIAL_VOLTAGE, s.get(Setting.INITIAL_VOLTAGE) + 5)
              .with(Setting.RAMP_UP, ramp * 0.8);
    }
    double high =
        Math.max(
            over(limits, "peak_current_ratio", peak),
            over(limits, "voltage_dip_pct", f.get("voltage_dip_pct")));
    if (high > 1) {
      // where the limit does not act yet, it is brought down to the peak first
      return s.with(Setting.CURRENT_LIMIT, Math.min(limit, peak) - 0.2);
    }
    double slow =
        Math.max(
            over(limits, "start_time_s", f.get("start_time_s")),
            over(limits, "i2t_ratio_s", f.get("i2t_ratio_s")));
    if (slow > 1) {
      return acts
          ? s.with(Setting.CURRENT_LIMIT, limit + 0.1)
          : s.with(Setting.RAMP_UP, ramp * 0.75);
    }
    if (under(limits, "start_time_s", f.get("start_time_s"))) {
      return s.with(Setting.RAMP_UP, ramp * 1.3 + 0.5);
    }
    return s;
  }

  private static PlantSettings stop(
      PlantSettings s, TrueFigures f, Map<String, Limits.Limit> limits) {
    double ramp = s.get(Setting.RAMP_DOWN);
    for (String figure : new String[] {"stop_time_s", "controlled_time_s"}) {
      double value = f.get(figure);
      if (over(limits, figure, value) > 1) {
        return s.with(Setting.RAMP_DOWN, ramp * 0.8);
      }
      if (under(limits, figure, value)) {
        return s.with(Setting.RAMP_DOWN, ramp * 1.3);
      }
    }
    double fall = f.get("stop_deceleration_pct_per_s");
    return over(limits, "stop_deceleration_pct_per_s", fall) > 1
        ? s.with(Setting.RAMP_DOWN, ramp * 1.2)
        : s;
  }

  private static double over(Map<String, Limits.Limit> limits, String figure, double value) {
    Limits.Limit limit = limits.get(figure);
    return limit == null || Double.isNaN(limit.max()) ? 0 : value / limit.max();
  }

  private static boolean under(Map<String, Limits.Limit> limits, String figure, double value) {
    Limits.Limit limit = limits.get(figure);
    return limit != null && value < limit.min();
  }
}
