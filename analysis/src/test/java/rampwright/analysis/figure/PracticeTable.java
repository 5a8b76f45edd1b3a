package rampwright.analysis.figure;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;
import rampwright.analysis.quantity.Measured;

/** Prints every figure of the practice traces against its truth. */
final class PracticeTable {
  private PracticeTable() {}

  public static void main(String[] args) throws IOException {
    Path practice = SharedData.folder("practice").orElseThrow();
    List<Path> truths = new ArrayList<>();
    try (Stream<Path> walk = Files.walk(practice)) {
      walk.filter(p -> p.getFileName().toString().equals("truth.json"))
          .sorted()
          .forEach(truths::add);
    }
    int[] in = new int[3];
    for (Path truthFile : truths) {
      String name = practice.relativize(truthFile.getParent()).toString();
      if (args.length > 0 && !name.contains(args[0])) {
        continue;
      }
      Path traceFile = truthFile.resolveSibling("trace.csv");
      if (!Files.exists(traceFile)) {
        traceFile = truthFile.resolveSibling("trace.csv.gz");
      }
      Path asset = truthFile.resolveSibling("asset.toml");
      if (!Files.exists(asset)) {
        asset = truthFile.getParent().getParent().getParent().resolve("asset.toml");
      }
      AnalyzedTrace analyzed =
          TraceAnalyzer.analyze(
              SharedData.trace(traceFile), SharedData.motor(asset), AnalysisOptions.DEFAULT);
      Map<String, double[]> truth = SharedData.truth(truthFile);
      TraceFigures f = analyzed.figures();
      System.out.printf(
          Locale.ROOT,
          "%n== %s  %s %.1f Hz; starts %d; truth completed %.0f tripped %.0f%n",
          name,
          f.kind().key(),
          f.rateHz(),
          f.starts().size(),
          truth.get("completed")[0],
          truth.get("tripped")[0]);
      for (Finding finding : f.findings()) {
        System.out.println("   ! " + finding.code() + " " + finding.text());
      }
      for (StartRecord start : f.starts()) {
        System.out.println(
            "   outcome "
                + start.outcome().key()
                + ", stop "
                + (start.stop() == null ? "none" : start.stop().kind().key()));
        row("inception_s", start.instants().get("inception_s"), truth, in);
        row("full_speed_s", start.instants().get("full_speed_s"), truth, in);
        for (String key :
            List.of(
                "start_time_s",
                "breakaway_delay_s",
                "peak_current_ratio",
                "i2t_ratio_s",
                "rms_current_A",
                "voltage_before_V",
                "voltage_min_V",
                "voltage_dip_pct",
                "acceleration_energy_J")) {
          row(key, start.figures().get(key), truth, in);
        }
        row("crest_current_A", start.figures().get("crest_current_A"), truth, in);
        StopRecord stop = start.stop();
        if (stop != null) {
          stop.instants().forEach((k, v) -> row(k, v, truth, in));
          for (String key :
              List.of(
                  "stop_time_s",
                  "controlled_time_s",
                  "speed_at_release_pct",
                  "stop_90_10_s",
                  "stop_deceleration_pct_per_s")) {
            Measured m = stop.figures().get(key);
            if (m != null) {
              row(key, m, truth, in);
            }
          }
        }
      }
    }
    System.out.printf("%nwithin 2u: %d, outside: %d, one side missing: %d%n", in[0], in[1], in[2]);
  }

  private static void row(String key, Measured m, Map<String, double[]> truth, int[] in) {
    double[] t = truth.get(key);
    if (t == null && truth.get(key + "_phases") != null) {
      t = new double[] {0};
      for (double one : truth.get(key + "_phases")) {
        t[0] = Math.max(t[0], one);
      }
    }
    if (t == null) {
      return;
    }
    Double value = m.value();
    Double u = m.uncertainty();
    if (key.startsWith("voltage_") && value != null) {
      value =
          truth.get("crest_current_A_phases") != null
              ? m.phases().get("L1-L2")
              : m.phases().values().stream()
                  .mapToDouble(Double::doubleValue)
                  .average()
                  .orElse(value);
    }
    if (value == null || Double.isNaN(t[0])) {
      if (value != null || !Double.isNaN(t[0])) {
        in[2]++;
        System.out.printf(Locale.ROOT, "  ? %-28s %s truth %.4f (%s)%n", key, value, t[0], m.why());
      }
      return;
    }
    double off = value - t[0];
    double k = u == null || u == 0 ? Double.POSITIVE_INFINITY : off / u;
    boolean ok = Math.abs(k) <= 2;
    in[ok ? 0 : 1]++;
    System.out.printf(
        Locale.ROOT,
        "  %s %-28s %12.4f truth %12.4f off %9.4f u %8.4f k %6.2f  %s%n",
        ok ? " " : "*",
        key,
        value,
        t[0],
        off,
        u == null ? 0 : u,
        k,
        ok ? "" : m.rule());
  }
}
