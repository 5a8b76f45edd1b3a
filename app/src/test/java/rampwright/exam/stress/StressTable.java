package rampwright.exam.stress;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.figure.AnalysisOptions;
import rampwright.analysis.figure.Finding;
import rampwright.analysis.figure.StartRecord;
import rampwright.analysis.figure.StopRecord;
import rampwright.analysis.figure.TraceAnalyzer;
import rampwright.analysis.figure.TraceFigures;
import rampwright.analysis.quantity.Measured;

/** What the analysis says of stress cases, counted against their truth; its main prints a table. */
public final class StressTable {
  private static final double COVERAGE = 2;
  // Beyond this share of its value an uncertainty is looked at.
  private static final double WIDE = 0.2;

  private final Map<String, Tally> byFigure = new LinkedHashMap<>();
  private final Map<String, Tally> byKind = new LinkedHashMap<>();
  private final Map<String, Integer> wrong = new TreeMap<>();
  private final List<String> lines = new ArrayList<>();
  private int traces;
  private int wrongTraces;

  /** Figures that agree, and those that do not. */
  static final class Tally {
    int within;
    int outside;
    int wide;
    int missing;
    int wrong;
    int traces;
  }

  /** Compares one case. */
  void add(StressCase one) {
    TraceFigures found =
        TraceAnalyzer.analyze(one.trace(), one.motor(), AnalysisOptions.DEFAULT).figures();
    Tally kind = byKind.computeIfAbsent(one.kind(), k -> new Tally());
    traces++;
    kind.traces++;
    Set<String> errors = findings(one, found);
    if (found.starts().size() != one.starts().size()) {
      errors.add(one.starts().size() + " starts seen as " + found.starts().size());
    } else {
      for (int s = 0; s < one.starts().size(); s++) {
        start(one, found.starts().get(s), one.starts().get(s), errors, kind);
      }
    }
    for (String error : errors) {
      wrong.merge(error, 1, Integer::sum);
      lines.add("! " + one.name() + ": " + error);
    }
    wrongTraces += errors.isEmpty() ? 0 : 1;
    kind.wrong += errors.isEmpty() ? 0 : 1;
  }

  private static Set<String> findings(StressCase one, TraceFigures found) {
    Set<String> codes = new HashSet<>();
    for (Finding finding : found.findings()) {
      codes.add(finding.code());
    }
    Set<String> errors = new HashSet<>();
    for (String code : codes) {
      if (!one.allowed().contains(code)) {
        errors.add("finding too many: " + code);
      }
    }
    for (String code : one.wanted()) {
      if (!codes.contains(code)) {
        errors.add("finding too few: " + code);
      }
    }
    return errors;
  }

  private void start(
      StressCase one, StartRecord start, StressCase.Start truth, Set<String> errors, Tally kind) {
    String outcome = start.outcome().key();
    if (!truth.outcomes().contains(outcome)) {
      errors.add("outcome " + String.join(" or ", truth.outcomes()) + " called " + outcome);
      return;
    }
    for (Map.Entry<String, Double> entry : truth.figures().entrySet()) {
      String key = entry.getKey();
      Measured measured = measured(start, key);
      Tally figure = byFigure.computeIfAbsent(key, k -> new Tally());
      Double value = measured == null ? null : value(key, measured, one);
      Double u = measured == null ? null : measured.uncertainty();
      if (measured == null || value == null || u == null) {
        boolean cannot = measured != null && String.valueOf(measured.why()).contains("channel");
        if (!cannot) {
          figure.missing++;
          kind.missing++;
          lines.add(
              "? " + one.name() + ": " + key + (measured == null ? "" : " " + measured.why()));
        }
        continue;
      }
      double off = value - entry.getValue();
      boolean inside = Math.abs(off) <= COVERAGE * u;
      for (Tally tally : List.of(figure, kind)) {
        tally.within += inside ? 1 : 0;
        tally.outside += inside ? 0 : 1;
        tally.wide += u > WIDE * Math.abs(entry.getValue()) && !isInstant(key) ? 1 : 0;
      }
      if (!inside) {
        lines.add(
            String.format(
                Locale.ROOT,
                "* %s: %s %.5g, truth %.5g, u %.3g, z %.1f [%s]",
                one.name(),
                key,
                value,
                entry.getValue(),
                u,
                off / u,
                measured.rule()));
      }
    }
  }

  private static boolean isInstant(String key) {
    return Set.of("inception_s", "full_speed_s", "stop_begin_s", "release_s", "rest_s")
        .contains(key);
  }

  private static @Nullable Measured measured(StartRecord start, String key) {
    Measured m = start.instants().get(key);
    m = m != null ? m : start.figures().get(key);
    StopRecord stop = start.stop();
    if (m == null && stop != null) {
      m = stop.instants().get(key);
      m = m != null ? m : stop.figures().get(key);
    }
    return m;
  }

  private static @Nullable Double value(String key, Measured measured, StressCase one) {
    Double value = measured.value();
    if (value == null || !key.startsWith("voltage_") || measured.phases().isEmpty()) {
      return value;
    }
    // The truth of a voltage is that of line 1-2 for waveforms, else the mean of the lines.
    return one.kind().startsWith("wave")
        ? measured.phases().get("L1-L2")
        : Double.valueOf(
            measured.phases().values().stream()
                .mapToDouble(Double::doubleValue)
                .average()
                .orElse(Double.NaN));
  }

  int within() {
    return byFigure.values().stream().mapToInt(t -> t.within).sum();
  }

  int outside() {
    return byFigure.values().stream().mapToInt(t -> t.outside).sum();
  }

  int traces() {
    return traces;
  }

  int wrongTraces() {
    return wrongTraces;
  }

  /** What lies outside, is missing or wrong, one line each. */
  List<String> lines() {
    return lines;
  }

  String table() {
    StringBuilder text = new StringBuilder();
    rows(text, "figure", byFigure, false);
    text.append('\n');
    rows(text, "kind", byKind, true);
    text.append('\n');
    wrong.forEach((what, n) -> text.append(n).append(" x ").append(what).append('\n'));
    text.append(
        String.format(
            Locale.ROOT,
            "all: %d within, %d outside (%.1f %%); %d of %d traces with a wrong outcome or finding%n",
            within(),
            outside(),
            100.0 * within() / Math.max(1, within() + outside()),
            wrongTraces,
            traces));
    return text.toString();
  }

  private static void rows(
      StringBuilder text, String head, Map<String, Tally> rows, boolean kinds) {
    text.append("| ").append(head).append(" | within 2 u | outside | u > 20 % | missing |");
    text.append(kinds ? " wrong | traces |\n| --- | --- | --- | --- | --- | --- | --- |\n" : "\n");
    text.append(kinds ? "" : "| --- | --- | --- | --- | --- |\n");
    rows.forEach(
        (name, t) -> {
          text.append(
              String.format(
                  Locale.ROOT,
                  "| %s | %d | %d | %d | %d |",
                  name,
                  t.within,
                  t.outside,
                  t.wide,
                  t.missing));
          text.append(kinds ? String.format(" %d | %d |%n", t.wrong, t.traces) : "\n");
        });
  }

  /**
   * Prints the table.
   *
   * @param args seed, readings a kind, waveforms a kind, part of a kind's name, "list" to see each
   */
  public static void main(String[] args) {
    long seed = args.length > 0 ? Long.parseLong(args[0]) : 1;
    int readings = args.length > 1 ? Integer.parseInt(args[1]) : 20;
    int waves = args.length > 2 ? Integer.parseInt(args[2]) : 2;
    String only = args.length > 3 ? args[3] : "";
    StressTable table = new StressTable();
    for (String kind : ReadingCases.KINDS) {
      for (int n = 0; n < readings && kind.contains(only); n++) {
        table.add(new ReadingCases(seed).draw(kind, n));
      }
    }
    for (String kind : WaveCases.KINDS) {
      for (int n = 0; n < waves && kind.contains(only); n++) {
        table.add(new WaveCases(seed).draw(kind, n));
      }
    }
    if (args.length > 4) {
      table.lines().forEach(System.out::println);
    }
    System.out.println(table.table());
  }
}
