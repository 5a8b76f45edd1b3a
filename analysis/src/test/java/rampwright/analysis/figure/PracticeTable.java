package rampwright.analysis.figure;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.quantity.Measured;

/** Figures of the practice traces beside their truth; its main prints them all. */
final class PracticeTable {
  private static final List<String> START_KEYS =
      List.of(
          "start_time_s",
          "breakaway_delay_s",
          "peak_current_ratio",
          "i2t_ratio_s",
          "rms_current_A",
          "voltage_before_V",
          "voltage_min_V",
          "voltage_dip_pct",
          "acceleration_energy_J",
          "crest_current_A");
  private static final List<String> STOP_KEYS =
      List.of(
          "stop_time_s",
          "controlled_time_s",
          "speed_at_release_pct",
          "stop_90_10_s",
          "stop_deceleration_pct_per_s");

  private PracticeTable() {}

  /** A figure, its truth and how far apart they are. */
  record Row(
      String key, @Nullable Double value, double truth, @Nullable Double uncertainty, String rule) {
    boolean both() {
      return value != null && !Double.isNaN(truth);
    }

    double timesUncertainty() {
      return value == null || uncertainty == null || uncertainty == 0
          ? Double.POSITIVE_INFINITY
          : (value - truth) / uncertainty;
    }

    @Override
    public String toString() {
      return String.format(
          Locale.ROOT, "%s %.5g truth %.5g u %.3g", key, value, truth, uncertainty);
    }
  }

  static AnalyzedTrace analyze(Path truthFile) throws IOException {
    Path trace = truthFile.resolveSibling("trace.csv");
    if (!Files.exists(trace)) {
      trace = truthFile.resolveSibling("trace.csv.gz");
    }
    Path asset = truthFile.resolveSibling("asset.toml");
    if (!Files.exists(asset)) {
      asset = truthFile.getParent().getParent().getParent().resolve("asset.toml");
    }
    return TraceAnalyzer.analyze(
        SharedData.trace(trace), SharedData.motor(asset), AnalysisOptions.DEFAULT);
  }

  static List<Row> rows(StartRecord start, Map<String, double[]> truth) {
    List<Row> rows = new ArrayList<>();
    add(rows, "inception_s", start.instants().get("inception_s"), truth);
    add(rows, "full_speed_s", start.instants().get("full_speed_s"), truth);
    START_KEYS.forEach(key -> add(rows, key, start.figures().get(key), truth));
    StopRecord stop = start.stop();
    if (stop != null) {
      stop.instants().forEach((key, m) -> add(rows, key, m, truth));
      STOP_KEYS.forEach(key -> add(rows, key, stop.figures().get(key), truth));
    }
    return rows;
  }

  private static void add(
      List<Row> rows, String key, @Nullable Measured m, Map<String, double[]> truth) {
    double[] t = truth.get(key);
    double[] phases = truth.get(key + "_phases");
    if (t == null && phases != null) {
      double largest = 0;
      for (double one : phases) {
        largest = Math.max(largest, one);
      }
      t = new double[] {largest};
    }
    if (t == null || m == null) {
      return;
    }
    Double value = m.value();
    if (key.startsWith("voltage_") && value != null && !m.phases().isEmpty()) {
      // The truth of a voltage is the mean of the lines, of waveforms line 1-2.
      value =
          truth.get("crest_current_A_phases") != null
              ? m.phases().get("L1-L2")
              : Double.valueOf(
                  m.phases().values().stream()
                      .mapToDouble(Double::doubleValue)
                      .average()
                      .orElse(0));
    }
    rows.add(new Row(key, value, t[0], m.uncertainty(), m.value() == null ? m.why() : m.rule()));
  }

  public static void main(String[] args) throws IOException {
    Path practice = SharedData.folder("practice").orElseThrow();
    List<Path> truths;
    try (Stream<Path> walk = Files.walk(practice)) {
      truths = walk.filter(p -> p.getFileName().toString().equals("truth.json")).sorted().toList();
    }
    int inside = 0;
    int outside = 0;
    int oneSided = 0;
    for (Path truthFile : truths) {
      String name = practice.relativize(truthFile.getParent()).toString();
      if (args.length > 0 && !name.contains(args[0])) {
        continue;
      }
      TraceFigures f = analyze(truthFile).figures();
      System.out.printf(Locale.ROOT, "%n== %s  %s %.1f Hz%n", name, f.kind().key(), f.rateHz());
      for (Finding finding : f.findings()) {
        System.out.println("   ! " + finding.code() + ": " + finding.text());
      }
      for (StartRecord start : f.starts()) {
        StopRecord stop = start.stop();
        System.out.println(
            "   outcome "
                + start.outcome().key()
                + ", stop "
                + (stop == null ? "none" : stop.kind().key()));
        for (Row row : rows(start, SharedData.truth(truthFile))) {
          String mark;
          if (!row.both()) {
            mark = row.value() == null && Double.isNaN(row.truth()) ? " " : "?";
            oneSided += mark.equals("?") ? 1 : 0;
          } else {
            boolean ok = Math.abs(row.timesUncertainty()) <= 2;
            mark = ok ? " " : "*";
            inside += ok ? 1 : 0;
            outside += ok ? 0 : 1;
          }
          System.out.printf(
              Locale.ROOT,
              "  %s %-28s %12.4f truth %12.4f u %8.4f  %s%n",
              mark,
              row.key(),
              row.value() == null ? Double.NaN : row.value(),
              row.truth(),
              row.uncertainty() == null ? Double.NaN : row.uncertainty(),
              row.rule());
        }
      }
    }
    System.out.printf(
        "%nwithin 2u: %d, outside: %d, on one side only: %d%n", inside, outside, oneSided);
  }
}
