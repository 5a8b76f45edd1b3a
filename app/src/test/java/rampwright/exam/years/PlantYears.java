package rampwright.exam.years;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import rampwright.app.trend.LoggedStart;
import rampwright.app.trend.TrendQuestion;
import rampwright.exam.plant.PlantAsset;
import rampwright.exam.plant.PlantSettings;
import rampwright.exam.plant.QuasiSteadyPlant;
import rampwright.exam.plant.Run;
import rampwright.exam.plant.TrueFigures;
import rampwright.exam.plant.TruePlant;

/**
 * Years of starts of one plant that changes once: the exam's own machine model run before and after
 * the change, with the days' supply, load and stickiness (exponents of each from runs a little off
 * the usual day) and a meter's scatter.
 */
final class PlantYears {
  static final List<String> FIGURES =
      List.of(
          "start_time_s",
          "breakaway_delay_s",
          "peak_current_ratio",
          "i2t_ratio_s",
          "voltage_before_V",
          "voltage_dip_pct",
          "run_current_A",
          "current_unbalance_pct",
          "stop_time_s");

  private static final Instant BEGIN = Instant.parse("2021-02-03T05:00:00Z");
  private static final double SECONDS_PER_YEAR = 365.25 * 86_400;
  private static final double OFF = 0.02;

  /** A change of less in every figure is none. */
  private static final double LEAST_SEEN = 0.03;

  private PlantYears() {}

  /** What a start shows on the usual day, and how it follows the day. */
  private record Stage(Map<String, Double> usual, Map<String, double[]> exponents) {}

  private static Optional<Map<String, Double>> figures(
      PlantAsset asset, TruePlant plant, PlantSettings settings, TruePlant.Day day) {
    Run run = new QuasiSteadyPlant(plant).run(settings, day, QuasiSteadyPlant.Conduct.WHOLE);
    TrueFigures f = TrueFigures.of(run, plant, asset.sheet().currentA(), asset.sheet().speedRpm());
    if (!f.completed()) {
      return Optional.empty();
    }
    double uneven = 0;
    for (double share : plant.supply().currentShares()) {
      uneven = Math.max(uneven, Math.abs(share - 1));
    }
    Map<String, Double> values = new LinkedHashMap<>();
    for (String key : FIGURES) {
      values.put(key, f.get(key));
    }
    int before = (int) (run.stopBeginS() / Run.STEP_S) - 20;
    values.put("run_current_A", run.currentA(before));
    values.put("current_unbalance_pct", 100 * uneven);
    values.replaceAll((key, value) -> Double.isFinite(value) ? Math.max(0.02, value) : 0.02);
    return Optional.of(values);
  }

  private static Optional<Stage> stage(PlantAsset asset, TruePlant plant, PlantSettings settings) {
    Optional<Map<String, Double>> usual = figures(asset, plant, settings, TruePlant.Day.USUAL);
    List<TruePlant.Day> off =
        List.of(
            new TruePlant.Day(1 - OFF, 1, 1),
            new TruePlant.Day(1, 1 + OFF, 1),
            new TruePlant.Day(1, 1, 1 + OFF));
    Map<String, double[]> exponents = new LinkedHashMap<>();
    FIGURES.forEach(key -> exponents.put(key, new double[3]));
    for (int d = 0; d < off.size(); d++) {
      Optional<Map<String, Double>> there = figures(asset, plant, settings, off.get(d));
      if (usual.isEmpty() || there.isEmpty()) {
        return Optional.empty();
      }
      double step = Math.log(d == 0 ? 1 - OFF : 1 + OFF);
      for (String key : FIGURES) {
        double slope = Math.log(there.get().get(key) / usual.get().get(key)) / step;
        exponents.get(key)[d] = Math.max(-6, Math.min(6, slope));
      }
    }
    return usual.map(values -> new Stage(values, exponents));
  }

  /** Years of one asset; nothing where it does not complete its starts before and after. */
  static Optional<List<TrendQuestion>> of(PlantAsset asset, Cause cause, Random chance) {
    PlantSettings settings =
        PlantSettings.plain(chance.nextBoolean()).withSoftStop(chance.nextInt(3) == 0);
    TruePlant after = cause.changed(asset.truth(), chance);
    Optional<Stage> first = stage(asset, asset.truth(), settings);
    Optional<Stage> then = stage(asset, after, settings);
    if (first.isEmpty()
        || then.isEmpty()
        || (cause != Cause.NOTHING && !isSeen(first.get(), then.get()))) {
      return Optional.empty();
    }
    int at = 40 + chance.nextInt(160);
    int n = at + 40 + chance.nextInt(60);
    double perYear = 60 + chance.nextInt(300);
    boolean slowly = chance.nextInt(3) == 0;
    Map<String, List<LoggedStart>> starts = new LinkedHashMap<>();
    FIGURES.forEach(key -> starts.put(key, new ArrayList<>()));
    double years = 0;
    for (int i = 0; i < n; i++) {
      years += -Math.log(1 - chance.nextDouble()) / perYear;
      double grown = i < at ? 0 : slowly ? (double) (i - at + 1) / (n - at) : 1;
      TruePlant.Day day = asset.truth().day(chance);
      start(starts, BEGIN.plus(time(years)), first.get(), then.get(), grown, day, chance);
    }
    List<TrendQuestion> questions = new ArrayList<>();
    starts.forEach(
        (key, list) ->
            questions.add(
                new TrendQuestion(
                    key, list, List.of(), OptionalDouble.empty(), OptionalDouble.empty())));
    return Optional.of(questions);
  }

  /** Whether any figure moves: a limit that never acts may change without a trace. */
  private static boolean isSeen(Stage first, Stage then) {
    return FIGURES.stream()
        .anyMatch(
            key ->
                !key.equals("breakaway_delay_s")
                    && Math.abs(Math.log(then.usual().get(key) / first.usual().get(key)))
                        > LEAST_SEEN);
  }

  private static Duration time(double years) {
    return Duration.ofSeconds(Math.round(years * SECONDS_PER_YEAR));
  }

  private static void start(
      Map<String, List<LoggedStart>> starts,
      Instant at,
      Stage first,
      Stage then,
      double grown,
      TruePlant.Day day,
      Random chance) {
    double[] off = {
      Math.log(day.supplyFactor()), Math.log(day.loadFactor()), Math.log(day.stickFactor())
    };
    Map<String, Double> values = new LinkedHashMap<>();
    for (String key : FIGURES) {
      double log =
          (1 - grown) * Math.log(first.usual().get(key)) + grown * Math.log(then.usual().get(key));
      for (int d = 0; d < off.length; d++) {
        log += off[d] * first.exponents().get(key)[d];
      }
      values.put(key, Math.exp(log) * (1 + relative(key) * chance.nextGaussian()));
    }
    double absolute = 0.02 * chance.nextGaussian();
    values.merge("breakaway_delay_s", absolute, Double::sum);
    values.merge("voltage_dip_pct", 5 * absolute, Double::sum);
    double voltage = values.get("voltage_before_V");
    values.forEach(
        (key, value) ->
            starts
                .get(key)
                .add(
                    new LoggedStart(
                        at,
                        "as set",
                        value,
                        key.equals("voltage_before_V") ? Double.NaN : voltage,
                        true)));
  }

  /** A meter's scatter of each figure, relative: common practice, no source. */
  private static double relative(String key) {
    return switch (key) {
      case "voltage_before_V" -> 0.002;
      case "peak_current_ratio", "run_current_A" -> 0.007;
      case "breakaway_delay_s", "voltage_dip_pct" -> 0.03;
      case "current_unbalance_pct" -> 0.1;
      default -> 0.012;
    };
  }
}
