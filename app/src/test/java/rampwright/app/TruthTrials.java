package rampwright.app;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.DoubleNode;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import java.util.zip.GZIPInputStream;

/** Trials with the truth of the plant that made them, and what a result says beside it. */
final class TruthTrials {
  private static final List<String> START_KEYS =
      List.of(
          "start_time_s",
          "breakaway_delay_s",
          "peak_current_ratio",
          "i2t_A2s",
          "i2t_ratio_s",
          "rms_current_A",
          "voltage_before_V",
          "voltage_min_V",
          "voltage_dip_pct",
          "acceleration_energy_J");
  private static final List<String> STOP_KEYS =
      List.of(
          "stop_time_s",
          "controlled_time_s",
          "speed_at_release_pct",
          "stop_90_10_s",
          "stop_deceleration_pct_per_s");

  private TruthTrials() {}

  /** A trial: its folder, the name it is reported under, its truth. */
  record Trial(Path folder, String name, JsonNode truth) {
    boolean is(String fact) {
      return truth.path(fact).asBoolean(false);
    }

    boolean isWaveform() {
      return truth.path("crest_current_A_phases").isArray();
    }

    /** The trace, packed or not. */
    Path trace() {
      Path plain = folder.resolve("trace.csv");
      return Files.exists(plain) ? plain : folder.resolve("trace.csv.gz");
    }

    /** The asset file beside the trial or of its asset folder. */
    Path asset() {
      Path beside = folder.resolve("asset.toml");
      return Files.exists(beside) ? beside : folder.resolve("../../asset.toml").normalize();
    }

    /** Speed reading just before the stop over rated speed; 0 without a speed channel. */
    double lastSpeedShare() throws IOException {
      List<String> lines = lines().stream().filter(line -> !line.startsWith("#")).toList();
      int column = List.of(lines.get(0).split(",", -1)).indexOf("speed_rpm");
      double stopS = truth.path("stop_begin_s").asDouble();
      double speedRpm = 0;
      for (String line : lines.subList(1, lines.size())) {
        String[] cells = line.split(",", -1);
        if (column > 0 && Double.parseDouble(cells[0]) < stopS && !cells[column].isEmpty()) {
          speedRpm = Double.parseDouble(cells[column]);
        }
      }
      for (String line : Files.readAllLines(asset())) {
        if (line.startsWith("rated_speed_rpm")) {
          return speedRpm / Double.parseDouble(line.replaceAll("[^=]*=\\s*([0-9.]+).*", "$1"));
        }
      }
      throw new IOException(asset() + " has no rated speed");
    }

    private List<String> lines() throws IOException {
      InputStream raw = Files.newInputStream(trace());
      try (InputStream in = trace().toString().endsWith(".gz") ? new GZIPInputStream(raw) : raw) {
        return new String(in.readAllBytes(), StandardCharsets.UTF_8).lines().toList();
      }
    }

    List<String> faults() {
      List<String> faults = new ArrayList<>();
      truth.path("faults").forEach(one -> faults.add(one.asText()));
      return faults;
    }
  }

  /** A figure beside its truth. */
  record Pair(String key, double value, double truth, double uncertainty) {
    boolean isWithin(double times) {
      return Math.abs(value - truth) <= times * uncertainty;
    }

    @Override
    public String toString() {
      return String.format(
          Locale.ROOT, "%s %.6g, truth %.6g, u %.3g", key, value, truth, uncertainty);
    }
  }

  /** Every trial under a folder that has its truth beside it. */
  static List<Trial> under(Path folder) throws IOException {
    List<Trial> trials = new ArrayList<>();
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.filter(f -> f.endsWith("truth.json")).sorted().toList()) {
        Path trial = file.getParent();
        trials.add(
            new Trial(
                trial,
                folder.relativize(trial).toString(),
                new ObjectMapper().readTree(file.toFile())));
      }
    }
    return trials;
  }

  /** Everything of a start that both the result and the truth give. */
  static List<Pair> pairs(JsonNode start, Trial trial) {
    List<Pair> pairs = new ArrayList<>();
    for (String key : List.of("inception_s", "full_speed_s")) {
      instant(pairs, key, start, trial);
    }
    START_KEYS.forEach(key -> figure(pairs, key, start.path("figures").path(key), trial));
    JsonNode crest = start.path("figures").path("crest_current_A");
    largest(pairs, "crest_current_A", crest, trial);
    JsonNode stop = start.path("stop");
    for (String key : List.of("stop_begin_s", "release_s", "rest_s")) {
      instant(pairs, key, stop, trial);
    }
    STOP_KEYS.forEach(key -> figure(pairs, key, stop.path("figures").path(key), trial));
    return pairs;
  }

  private static void instant(List<Pair> pairs, String key, JsonNode part, Trial trial) {
    JsonNode value = part.path("instants").path(key);
    JsonNode how = part.path("instant_details").path(key);
    add(pairs, key, value, trial.truth().path(key), how.path("uncertainty"));
  }

  private static void figure(List<Pair> pairs, String key, JsonNode figure, Trial trial) {
    JsonNode value = figure.path("value");
    if (key.startsWith("voltage_") && figure.path("phases").isObject()) {
      // The truth of a voltage is that of line 1-2 for waveforms, else the mean of the lines.
      JsonNode lines = figure.path("phases");
      if (trial.isWaveform()) {
        value = lines.path("L1-L2");
      } else {
        double sum = 0;
        for (JsonNode line : lines) {
          sum += line.asDouble();
        }
        value = DoubleNode.valueOf(sum / lines.size());
      }
    }
    add(pairs, key, value, trial.truth().path(key), figure.path("uncertainty"));
  }

  private static void largest(List<Pair> pairs, String key, JsonNode figure, Trial trial) {
    double largest = Double.NaN;
    for (JsonNode phase : trial.truth().path(key + "_phases")) {
      largest = Double.isNaN(largest) ? phase.asDouble() : Math.max(largest, phase.asDouble());
    }
    if (!Double.isNaN(largest)) {
      add(
          pairs,
          key,
          figure.path("value"),
          DoubleNode.valueOf(largest),
          figure.path("uncertainty"));
    }
  }

  private static void add(
      List<Pair> pairs, String key, JsonNode value, JsonNode truth, JsonNode uncertainty) {
    if (value.isNumber() && truth.isNumber()) {
      pairs.add(
          new Pair(key, value.asDouble(), truth.asDouble(), uncertainty.asDouble(Double.NaN)));
    }
  }
}
