package rampwright.exam.stress;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import rampwright.analysis.figure.MotorContext;
import rampwright.analysis.trace.Trace;
import rampwright.exam.plant.AssetGenerator;
import rampwright.exam.plant.AssetSheet;
import rampwright.exam.plant.PlantAsset;
import rampwright.exam.plant.PlantSettings;
import rampwright.exam.plant.QuasiSteadyPlant;
import rampwright.exam.plant.QuasiSteadyPlant.Conduct;
import rampwright.exam.plant.Run;
import rampwright.exam.plant.Setting;
import rampwright.exam.plant.TrueFigures;
import rampwright.exam.plant.TruePlant;
import rampwright.exam.tuner.RandomSearch;

/** Draws cases of RMS readings; the same seed gives the same cases. */
final class ReadingCases {
  /** What each kind is, and how it is made. */
  static final List<String> KINDS =
      List.of(
          "ordinary",
          "averages back 0.1 s",
          "averages about 0.2 s",
          "averages back 0.5 s",
          "averages back 1 s",
          "uneven",
          "dropouts",
          "coarse",
          "zero off",
          "two phases",
          "no voltage",
          "two starts",
          "begins running",
          "lead off",
          "aborted at 20 %",
          "aborted at 50 %",
          "aborted at 90 %",
          "restart turning",
          "no nameplate");

  private static final Set<String> ALWAYS_ALLOWED = Set.of("late-breakaway");
  private static final double[] RATES_HZ = {10, 20, 25, 50};

  private final long seed;

  ReadingCases(long seed) {
    this.seed = seed;
  }

  /** A case of a kind. */
  StressCase draw(String kind, int number) {
    int id = 100 * KINDS.indexOf(kind) + number;
    PlantAsset asset = new AssetGenerator(seed).asset(id);
    Random random = new Random(seed * 7919 + id);
    PlantSettings settings = settings(asset, random);
    TruePlant.Day day = asset.day(1 + random.nextInt(3));
    boolean speed = random.nextBoolean();
    double ratedA = asset.sheet().currentA();
    double rateHz = RATES_HZ[random.nextInt(RATES_HZ.length)];
    ReadingMeter meter = ReadingMeter.ordinary(rateHz, ratedA, speed ? 1 : Double.NaN);
    double runS = 4 + 4 * random.nextDouble();
    Conduct conduct = new Conduct(runS, Double.NaN, true);
    Set<String> wanted = new HashSet<>();
    Set<String> allowed = new HashSet<>(ALWAYS_ALLOWED);
    MotorContext motor = motor(asset.sheet());
    double fromS = 0;
    int repeats = 1;
    switch (kind) {
      case "averages back 0.1 s" -> meter = slow(meter, ratedA, 10).averaging(0.1, false);
      case "averages about 0.2 s" -> meter = meter.averaging(0.2, true);
      case "averages back 0.5 s" -> meter = slow(meter, ratedA, 4).averaging(0.5, false);
      case "averages back 1 s" -> meter = slow(meter, ratedA, 2).averaging(1, false);
      case "uneven" -> {
        meter = meter.uneven(0.4);
        allowed.add("gap");
      }
      case "dropouts" -> {
        meter = meter.losing(0.01);
        allowed.add("gap");
      }
      case "coarse" -> meter = meter.coarse(0.02 * ratedA, speed ? 10 : Double.NaN);
      case "zero off" -> {
        meter = meter.zero(0.03 * ratedA, 0.02 * ratedA);
        allowed.add("offset");
      }
      case "two phases" -> meter = meter.only(2, true);
      case "no voltage" -> meter = meter.only(3, false);
      case "two starts" -> repeats = 2;
      case "restart turning" ->
          conduct = new Conduct(runS, Double.NaN, true, 0.2 + 0.5 * random.nextDouble());
      case "no nameplate" -> motor = MotorContext.UNKNOWN;
      default -> {
        // "ordinary", and what is told below
      }
    }
    QuasiSteadyPlant plant = new QuasiSteadyPlant(asset.truth());
    if (kind.startsWith("aborted")) {
      double share = Double.parseDouble(kind.replaceAll("[^0-9]", "")) / 100;
      TrueFigures whole = asset.figures(settings, day, conduct);
      double took = whole.completed() ? whole.get("start_time_s") : 10;
      conduct = new Conduct(runS, Math.rint(100 * share * took) / 100, true);
      wanted.add("aborted-start");
    }
    Run[] runs = new Run[repeats];
    List<StressCase.Start> starts = new ArrayList<>();
    double offsetS = 0;
    for (int k = 0; k < repeats; k++) {
      runs[k] = plant.run(settings, day, conduct);
      Start truth = new Start(asset, runs[k], offsetS, meter);
      if (kind.equals("begins running")) {
        fromS = runs[k].bypassS() + 1.5;
        truth.begunRunning();
      }
      if (kind.equals("lead off")) {
        double atS = runs[k].timeS(runs[k].size() - 1) * 0.2 + 2;
        meter = meter.leadOff(atS);
        truth.leadOff();
      }
      if (kind.equals("restart turning")) {
        truth.without("breakaway_delay_s");
      }
      if (kind.equals("no nameplate")) {
        truth.without("peak_current_ratio", "i2t_ratio_s");
      }
      starts.add(truth.start(wanted, allowed));
      offsetS += runs[k].size() * Run.STEP_S;
    }
    if (kind.equals("begins running") && Double.isNaN(fromS)) {
      // Never by-passed: the record begins at rest after all.
      fromS = 0;
    }
    if (kind.equals("lead off")) {
      wanted.add("phase-missing");
      allowed.add("unbalance");
    }
    if (kind.equals("no nameplate")) {
      allowed.add("stall");
      allowed.add("aborted-start");
    }
    allowed.addAll(wanted);
    Trace trace =
        meter.read(new ReadingMeter.Course(runs), asset.truth().supply(), ratedA, fromS, random);
    String name =
        String.format(
            java.util.Locale.ROOT,
            "%s %d: %s %.0f kW, %.0f Hz, %s, %s stop",
            kind,
            number,
            asset.trade(),
            asset.sheet().powerKw(),
            meter.rateHz(),
            speed ? "speed" : "no speed",
            settings.softStop() ? "soft" : "coasting");
    return new StressCase(kind, name, motor, trace, starts, wanted, allowed);
  }

  private static ReadingMeter slow(ReadingMeter meter, double ratedA, double rateHz) {
    return ReadingMeter.ordinary(rateHz, ratedA, meter.stepRpm());
  }

  /** Settings as people begin with, the stop as the trade has it. */
  static PlantSettings settings(PlantAsset asset, Random random) {
    boolean soft =
        switch (asset.trade()) {
          case "pump" -> random.nextInt(5) > 0;
          case "conveyor", "mixer" -> random.nextInt(3) == 0;
          default -> random.nextInt(5) == 0;
        };
    double[] down = {2, 3, 5, 10, 20};
    return RandomSearch.likely(random, random.nextInt(5) < 3)
        .withSoftStop(soft)
        .with(Setting.RAMP_DOWN, down[random.nextInt(down.length)])
        .with(Setting.RELEASE_TORQUE, 5 + 25 * random.nextDouble());
  }

  static MotorContext motor(AssetSheet sheet) {
    double inertia = sheet.motorInertiaKgM2() + sheet.loadInertiaKgM2();
    return new MotorContext(
        sheet.currentA(),
        sheet.speedRpm(),
        sheet.frequencyHz(),
        sheet.lineVoltageV(),
        sheet.lineVoltageV(),
        sheet.lockedCurrentRatio(),
        null,
        null,
        null,
        Double.isNaN(inertia) ? null : Double.valueOf(inertia),
        null,
        null,
        null,
        null,
        false,
        0);
  }

  /** The truth of one run, on its way. */
  private static final class Start {
    private static final List<String> INSTANTS =
        List.of("inception_s", "full_speed_s", "stop_begin_s", "release_s", "rest_s");
    private static final List<String> FIGURES =
        List.of(
            "start_time_s",
            "breakaway_delay_s",
            "peak_current_ratio",
            "i2t_ratio_s",
            "rms_current_A",
            "voltage_before_V",
            "voltage_min_V",
            "voltage_dip_pct",
            "stop_time_s",
            "controlled_time_s",
            "speed_at_release_pct",
            "stop_90_10_s",
            "stop_deceleration_pct_per_s");
    private static final Set<String> OF_STOP =
        Set.of(
            "stop_begin_s",
            "rest_s",
            "stop_time_s",
            "controlled_time_s",
            "speed_at_release_pct",
            "stop_90_10_s",
            "stop_deceleration_pct_per_s",
            "release_s",
            "run_current_A");

    private final Map<String, Double> figures = new LinkedHashMap<>();
    private final TrueFigures truth;
    private String outcome;

    Start(PlantAsset asset, Run run, double offsetS, ReadingMeter meter) {
      truth =
          TrueFigures.of(run, asset.truth(), asset.sheet().currentA(), asset.sheet().speedRpm());
      outcome = "completed";
      INSTANTS.forEach(key -> figures.put(key, truth.get(key) + offsetS));
      FIGURES.forEach(key -> figures.put(key, truth.get(key)));
      double[] shares = asset.truth().supply().currentShares();
      double all = 0;
      double measured = 0;
      double highest = 0;
      double highestOfAll = 0;
      for (int p = 0; p < 3; p++) {
        all += shares[p] * shares[p] / 3;
        highestOfAll = Math.max(highestOfAll, shares[p]);
        if (p < meter.phases()) {
          measured += shares[p] * shares[p] / meter.phases();
          highest = Math.max(highest, shares[p]);
        }
      }
      scale("peak_current_ratio", highest / highestOfAll);
      scale("i2t_ratio_s", measured / all);
      scale("rms_current_A", Math.sqrt(measured / all));
      if (truth.completed() && !Double.isNaN(run.stopBeginS())) {
        figures.put("run_current_A", runCurrentA(run) * highest);
      } else {
        without("stop_begin_s", "controlled_time_s", "rest_s", "stop_time_s");
      }
      if (!truth.completed()) {
        outcome = stillGained(run, asset.sheet().speedRpm()) ? "aborted" : "stalled";
        if (outcome.equals("stalled") && lastSpeedRpm(run) > 0.95 * asset.sheet().speedRpm()) {
          // A starter that gives up waiting for by-pass while the shaft is at speed ends a run.
          outcome = "completed";
          figures.keySet().retainAll(Set.of("inception_s", "release_s", "voltage_before_V"));
        }
      }
      if (truth.get("controlled_time_s") == 0) {
        // Coasting: what is called 0 by definition says nothing.
        figures.remove("controlled_time_s");
      }
    }

    private static double lastSpeedRpm(Run run) {
      return run.speedRadPerS((int) (run.stopBeginS() / Run.STEP_S)) * 30 / Math.PI;
    }

    /** Median over the second before the stop order. */
    private static double runCurrentA(Run run) {
      int stop = (int) Math.rint(run.stopBeginS() / Run.STEP_S);
      double[] second = new double[100];
      for (int n = 0; n < second.length; n++) {
        second[n] = run.currentA(stop - n);
      }
      java.util.Arrays.sort(second);
      return 0.5 * (second[49] + second[50]);
    }

    private static boolean stillGained(Run run, double ratedRpm) {
      double end = run.stopBeginS();
      double took = end - 2;
      double window = Math.max(3, took / 4);
      int to = (int) (end / Run.STEP_S);
      int from = Math.max(0, (int) ((end - window) / Run.STEP_S));
      double gained = (run.speedRadPerS(to) - run.speedRadPerS(from)) * 30 / Math.PI;
      return took <= window || gained > 0.01 * ratedRpm;
    }

    private void scale(String key, double factor) {
      figures.computeIfPresent(key, (k, value) -> value * factor);
    }

    void without(String... keys) {
      for (String key : keys) {
        figures.remove(key);
      }
    }

    void begunRunning() {
      if (truth.completed()) {
        figures.keySet().retainAll(OF_STOP);
        outcome = "already running";
      }
    }

    void leadOff() {
      without("i2t_ratio_s", "rms_current_A", "run_current_A", "peak_current_ratio");
    }

    StressCase.Start start(Set<String> wanted, Set<String> allowed) {
      if (outcome.equals("stalled")) {
        wanted.add("stall");
        wanted.remove("aborted-start");
      } else if (outcome.equals("aborted")) {
        wanted.add("aborted-start");
      } else if (outcome.equals("completed")) {
        wanted.remove("aborted-start");
      }
      allowed.addAll(wanted);
      figures.values().removeIf(value -> value.isNaN());
      return new StressCase.Start(Set.of(outcome), figures);
    }
  }
}
