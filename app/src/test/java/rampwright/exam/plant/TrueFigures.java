package rampwright.exam.plant;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;

/**
 * The figures of a trial, taken from the plant itself: what a perfect meter and a perfect analysis
 * would give. Names and definitions are those of the project's figures; NaN: it cannot be had.
 */
public final class TrueFigures {
  private final Map<String, Double> values = new LinkedHashMap<>();
  private final Map<String, double[]> phases = new LinkedHashMap<>();
  private final Map<String, Boolean> states = new LinkedHashMap<>();

  /**
   * Figures of a run.
   *
   * @param plateCurrentA rated current on the plate, for the ratios
   * @param plateSpeedRpm rated speed on the plate, for percentages where no run was reached
   */
  public static TrueFigures of(
      Run run, TruePlant plant, double plateCurrentA, double plateSpeedRpm) {
    TrueFigures f = new TrueFigures();
    boolean stopped = !Double.isNaN(run.releaseS);
    double settled = f.settledSpeed(run);
    double full = f.fullSpeed(run, settled);
    double from = run.inceptionS;
    double to = run.completed ? full : stopped ? run.releaseS : run.timeS(run.size() - 1);
    double[] shares = plant.supply().currentShares();
    f.values.put("inception_s", from);
    f.values.put("full_speed_s", run.completed ? full : Double.NaN);
    f.values.put("start_time_s", run.completed ? full - from : Double.NaN);
    f.values.put("breakaway_delay_s", run.breakawayS - from);
    double peak = 0;
    double square = 0;
    double least = Double.POSITIVE_INFINITY;
    int count = 0;
    for (int n = index(from) + 1; n < run.size() && run.timeS(n) <= to + 1e-9; n++) {
      peak = Math.max(peak, run.currentA(n));
      square += run.currentA(n) * run.currentA(n);
      least = Math.min(least, run.lineV(n));
      count++;
    }
    square /= Math.max(1, count);
    double squares = 0;
    double largest = 0;
    for (double share : shares) {
      squares += share * share / 3;
      largest = Math.max(largest, share);
    }
    f.phases.put(
        "peak_current_A_phases",
        new double[] {peak * shares[0], peak * shares[1], peak * shares[2]});
    f.values.put("peak_current_ratio", peak * largest / plateCurrentA);
    double i2t = square * squares * (to - from);
    f.values.put("i2t_A2s", i2t);
    f.values.put("i2t_ratio_s", i2t / (plateCurrentA * plateCurrentA));
    f.values.put("rms_current_A", Math.sqrt(square * squares));
    f.values.put("voltage_before_V", run.voltageBeforeV);
    f.values.put("voltage_min_V", least);
    f.values.put("voltage_dip_pct", 100 * (1 - least / run.voltageBeforeV));
    f.stop(run, run.completed ? settled : Double.NaN, plateSpeedRpm);
    f.values.put("settled_speed_rpm", run.completed ? settled * 30 / Math.PI : Double.NaN);
    f.values.put("rotor_loss_J", run.rotorLossJ);
    f.values.put(
        "acceleration_energy_J",
        run.completed ? 0.5 * plant.inertiaKgM2() * settled * settled : Double.NaN);
    f.values.put("duration_s", run.timeS(run.size() - 1));
    f.states.put("completed", run.completed);
    f.states.put("tripped", run.tripped);
    f.states.put("aborted", run.aborted);
    return f;
  }

  private double settledSpeed(Run run) {
    if (!run.completed) {
      return Double.NaN;
    }
    double end = Double.isNaN(run.stopBeginS) ? run.timeS(run.size() - 1) : run.stopBeginS;
    int last = Math.min(run.size() - 1, index(end));
    int first = Math.max(0, last - 50);
    double sum = 0;
    for (int n = first; n <= last; n++) {
      sum += run.speedRadPerS(n);
    }
    return sum / (last - first + 1);
  }

  private double fullSpeed(Run run, double settled) {
    if (Double.isNaN(settled)) {
      return Double.NaN;
    }
    double wanted = 0.95 * settled;
    for (int n = 1; n < run.size(); n++) {
      double now = run.speedRadPerS(n);
      if (now >= wanted) {
        double before = run.speedRadPerS(n - 1);
        return run.timeS(n - 1) + Run.STEP_S * (wanted - before) / (now - before);
      }
    }
    return Double.NaN;
  }

  private void stop(Run run, double settled, double plateSpeedRpm) {
    double begin = run.completed ? run.stopBeginS : Double.NaN;
    double rest = Double.NaN;
    double down90 = Double.NaN;
    double down10 = Double.NaN;
    double steepest = Double.NaN;
    double release = run.releaseS;
    double atRelease = Double.NaN;
    if (!Double.isNaN(begin) && !Double.isNaN(release)) {
      steepest = 0;
      atRelease = 100 * run.speedRadPerS(Math.min(run.size() - 1, index(release))) / settled;
      for (int n = index(begin) + 1; n < run.size(); n++) {
        double now = run.speedRadPerS(n) / settled;
        down90 = first(down90, now < 0.9, run.timeS(n));
        down10 = first(down10, now < 0.1, run.timeS(n));
        rest = first(rest, now < 0.01, run.timeS(n));
        if (now > 0.1 && n + 10 < run.size()) {
          double fall = (now - run.speedRadPerS(n + 10) / settled) / (10 * Run.STEP_S);
          steepest = Math.max(steepest, 100 * fall);
        }
      }
    }
    values.put("stop_begin_s", run.stopBeginS);
    values.put("release_s", release);
    values.put("rest_s", rest);
    values.put("stop_time_s", rest - begin);
    values.put("controlled_time_s", release - begin);
    values.put("stop_90_10_s", down10 - down90);
    values.put("stop_deceleration_pct_per_s", steepest);
    values.put("speed_at_release_pct", atRelease);
  }

  private static double first(double known, boolean now, double t) {
    return Double.isNaN(known) && now ? t : known;
  }

  private static int index(double timeS) {
    return (int) Math.rint(timeS / Run.STEP_S);
  }

  /** A figure by its key; NaN when it cannot be had. */
  public double get(String key) {
    Double value = values.get(key);
    return value == null ? Double.NaN : value;
  }

  public boolean completed() {
    return Boolean.TRUE.equals(states.get("completed"));
  }

  public boolean tripped() {
    return Boolean.TRUE.equals(states.get("tripped"));
  }

  /** A JSON object; what cannot be had is null. */
  public String toJson(Map<String, Boolean> more) {
    StringBuilder text = new StringBuilder("{\n");
    values.forEach((key, value) -> line(text, key, number(value)));
    phases.forEach(
        (key, three) ->
            line(
                text,
                key,
                "[" + number(three[0]) + ", " + number(three[1]) + ", " + number(three[2]) + "]"));
    states.forEach((key, state) -> line(text, key, state.toString()));
    more.forEach((key, state) -> line(text, key, state.toString()));
    text.setLength(text.length() - 2);
    return text.append("\n}\n").toString();
  }

  private static void line(StringBuilder text, String key, String value) {
    text.append(" \"").append(key).append("\": ").append(value).append(",\n");
  }

  private static String number(double value) {
    return Double.isFinite(value) ? String.format(Locale.ROOT, "%.9g", value) : "null";
  }
}
