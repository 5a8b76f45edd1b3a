package rampwright.exam.stress;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.UncheckedIOException;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import rampwright.analysis.figure.MotorContext;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Provenance;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;
import rampwright.analysis.trace.Trace;
import rampwright.exam.plant.AssetGenerator;
import rampwright.exam.plant.PlantAsset;
import rampwright.exam.plant.PlantSettings;
import rampwright.exam.plant.Setting;
import rampwright.exam.plant.TruePlant;
import rampwright.exam.wave.WavePlant;
import rampwright.exam.wave.WaveRecord;
import rampwright.exam.wave.WaveTruth;

/** Draws cases of waveforms; the same seed gives the same cases. */
final class WaveCases {
  static final List<String> KINDS =
      List.of(
          "wave ordinary",
          "wave off frequency",
          "wave direct offset",
          "wave drifting zero",
          "wave two phases",
          "wave no voltage",
          "wave slow sampling",
          "wave phase lost",
          "wave dead thyristor",
          "wave supply dip",
          "wave aborted");

  private static final String[] TRADES = {"pump", "fan", "compressor", "conveyor"};
  private static final double LONGEST_S = 14;
  private static final List<String> KEYS =
      List.of(
          "inception_s",
          "full_speed_s",
          "start_time_s",
          "breakaway_delay_s",
          "peak_current_ratio",
          "crest_current_A",
          "i2t_ratio_s",
          "rms_current_A",
          "voltage_before_V",
          "voltage_min_V",
          "voltage_dip_pct",
          "stop_begin_s",
          "release_s",
          "rest_s",
          "controlled_time_s");

  private final long seed;

  WaveCases(long seed) {
    this.seed = seed;
  }

  /** A case of a kind. */
  StressCase draw(String kind, int number) {
    int id = 5000 + 100 * KINDS.indexOf(kind) + number;
    Random random = new Random(seed * 104_729 + id);
    boolean off = kind.equals("wave off frequency");
    double nominalHz = random.nextBoolean() ? 50 : 60;
    double truePlantHz = off ? nominalHz * (0.97 + 0.05 * random.nextDouble()) : nominalHz;
    double[] powers = {11, 37, 90, 200};
    PlantAsset asset =
        new AssetGenerator(seed)
            .asset(
                id, TRADES[random.nextInt(TRADES.length)], powers[random.nextInt(4)], truePlantHz);
    boolean soft = asset.trade().equals("pump");
    PlantSettings settings =
        PlantSettings.plain(random.nextBoolean())
            .with(Setting.RAMP_UP, 1 + 2 * random.nextDouble())
            .with(Setting.CURRENT_LIMIT, 4.5)
            .with(Setting.INITIAL_TORQUE, 30 + 20 * random.nextDouble())
            .with(Setting.INITIAL_VOLTAGE, 50)
            .withSoftStop(soft)
            .with(Setting.RAMP_DOWN, 3);
    double rateHz = kind.equals("wave slow sampling") ? 1000 : 4000;
    WavePlant.Conduct conduct = WavePlant.Conduct.sound(rateHz, LONGEST_S, 2.5);
    Set<String> wanted = new HashSet<>();
    Set<String> allowed =
        new HashSet<>(Set.of("late-breakaway", "stall", "aborted-start", "offset"));
    switch (kind) {
      case "wave phase lost" -> {
        conduct = conduct.withLostPhase(0.6).withTimeLimit(5);
        wanted.add("phase-missing");
        allowed.add("unbalance");
      }
      case "wave dead thyristor" -> {
        conduct = conduct.withDeadThyristor(0.5).withTimeLimit(5);
        allowed.addAll(Set.of("one-way-conduction", "unbalance"));
      }
      case "wave supply dip" -> {
        conduct = conduct.withDip(0.4 + random.nextDouble(), 0.3, 0.75);
        allowed.add("supply-dip");
      }
      case "wave aborted" -> conduct = conduct.withAbort(0.5 + random.nextDouble());
      default -> {
        // told below, by the recorder
      }
    }
    allowed.addAll(wanted);
    WaveRecord record = new WavePlant(asset).run(settings, TruePlant.Day.USUAL, conduct);
    StressCase.Start truth = truth(kind, asset, record, truePlantHz);
    String name =
        String.format(
            Locale.ROOT,
            "%s %d: %s %.0f kW, %.2f Hz, %s stop",
            kind,
            number,
            asset.trade(),
            asset.sheet().powerKw(),
            truePlantHz,
            soft ? "soft" : "coasting");
    return new StressCase(
        kind,
        name,
        motor(asset, nominalHz),
        trace(kind, asset, record, random),
        List.of(truth),
        wanted,
        allowed);
  }

  /** The plate names the nominal frequency, whatever the supply's is. */
  private static MotorContext motor(PlantAsset asset, double nominalHz) {
    MotorContext m = ReadingCases.motor(asset.sheet());
    return new MotorContext(
        m.ratedCurrentA(),
        m.ratedSpeedRpm(),
        nominalHz,
        m.ratedVoltageV(),
        m.supplyVoltageV(),
        m.lockedRotorCurrentRatio(),
        null,
        null,
        null,
        m.totalInertiaKgM2(),
        null,
        null,
        null,
        null,
        false,
        0);
  }

  private static StressCase.Start truth(
      String kind, PlantAsset asset, WaveRecord record, double hz) {
    JsonNode json;
    try {
      json =
          new ObjectMapper()
              .readTree(new WaveTruth(record, hz, asset.sheet().currentA()).json(List.of()));
    } catch (com.fasterxml.jackson.core.JsonProcessingException e) {
      throw new UncheckedIOException(e);
    }
    Map<String, Double> figures = new LinkedHashMap<>();
    for (String key : KEYS) {
      JsonNode value = json.path(key);
      if (value.isNumber()) {
        figures.put(key, value.asDouble());
      }
    }
    int phases = kind.equals("wave two phases") ? 2 : 3;
    double crest = 0;
    double peak = 0;
    for (int p = 0; p < phases; p++) {
      crest = Math.max(crest, json.path("crest_current_A_phases").path(p).asDouble());
      peak = Math.max(peak, json.path("peak_current_A_phases").path(p).asDouble());
    }
    figures.put("crest_current_A", crest);
    figures.put("peak_current_ratio", peak / asset.sheet().currentA());
    boolean completed = json.path("completed").asBoolean();
    Set<String> outcomes =
        completed
            ? Set.of("completed")
            : json.path("aborted").asBoolean() || json.path("tripped").asBoolean()
                ? Set.of("aborted", "stalled", "completed")
                : Set.of("cut off", "stalled", "completed");
    if (!completed) {
      figures.keySet().retainAll(Set.of("inception_s", "voltage_before_V"));
    }
    if (figures.getOrDefault("controlled_time_s", 1.0) < 0.02) {
      // Coasting: what is called 0 by definition says nothing.
      figures.remove("controlled_time_s");
    }
    return new StressCase.Start(outcomes, figures);
  }

  /** What a 12-bit recorder keeps. */
  private static Trace trace(String kind, PlantAsset asset, WaveRecord record, Random random) {
    double rangeA = 8 * Math.sqrt(2) * asset.sheet().currentA();
    double rangeV = 1.6 * asset.sheet().lineVoltageV();
    boolean drifts = kind.equals("wave drifting zero");
    double zeroA = kind.equals("wave direct offset") ? 0.03 * rangeA : 0;
    boolean voltage = !kind.equals("wave no voltage");
    int phases = kind.equals("wave two phases") ? 2 : 3;
    Map<ChannelName, Samples> channels = new EnumMap<>(ChannelName.class);
    for (int c = 0; c < 6; c++) {
      if (c < 3 ? c >= phases : !voltage) {
        continue;
      }
      double range = c < 3 ? rangeA : rangeV;
      double step = range / 2048;
      double gain = 1 + 0.003 * random.nextGaussian();
      double[] values = new double[record.size()];
      for (int n = 0; n < values.length; n++) {
        double zero = c < 3 ? zeroA + (drifts ? 0.01 * rangeA * n / values.length : 0) : 0;
        double value = record.value(c, n) * gain + zero + 0.5 * step * random.nextGaussian();
        values[n] = Math.max(-range, Math.min(range, Math.rint(value / step) * step));
      }
      channels.put(
          c < 3 ? ChannelName.CURRENTS.get(c) : ChannelName.LINE_VOLTAGES.get(c - 3),
          Samples.owning(values));
    }
    if (random.nextBoolean()) {
      double[] rpm = new double[record.size()];
      for (int n = 0; n < rpm.length; n++) {
        rpm[n] = Math.rint(Math.max(0, record.value(6, n) + 0.3 * random.nextGaussian()));
      }
      channels.put(ChannelName.SPEED, Samples.owning(rpm));
    }
    return new Trace(
        TimeBase.even(0, 1 / record.rateHz(), record.size()),
        channels,
        null,
        Provenance.computed("made for a stress case"));
  }
}
