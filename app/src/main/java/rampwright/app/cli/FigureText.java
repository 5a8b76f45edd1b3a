package rampwright.app.cli;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.figure.StartRecord;
import rampwright.analysis.figure.StopRecord;
import rampwright.analysis.figure.TraceFigures.HarmonicShare;
import rampwright.analysis.quantity.Measured;
import rampwright.app.envelope.FigureKey;
import rampwright.app.wording.InstantWords;
import rampwright.app.wording.ValueText;

/** Instants and figures as tables; what could not be had with its reason. */
final class FigureText {
  private final Screen screen;
  private final boolean how;

  /**
   * Tables on a screen.
   *
   * @param how whether window and rule stand beside each number
   */
  FigureText(Screen screen, boolean how) {
    this.screen = screen;
    this.how = how;
  }

  void start(StartRecord start, Map<Integer, HarmonicShare> harmonics) {
    instants(start.instants());
    figures(start.figures());
    if (!harmonics.isEmpty()) {
      screen.prose(
          "  ",
          "harmonics, % of fundamental, median (largest): "
              + harmonics.entrySet().stream()
                  .map(
                      entry ->
                          entry.getKey()
                              + ": "
                              + ValueText.percent(entry.getValue().medianPct())
                              + " ("
                              + ValueText.percent(entry.getValue().largestPct())
                              + ")")
                  .collect(Collectors.joining(", ")));
    }
    missing(start.instants(), start.figures());
  }

  void stop(StopRecord stop) {
    instants(stop.instants());
    figures(stop.figures());
    missing(stop.instants(), stop.figures());
  }

  private void instants(Map<String, Measured> instants) {
    TextTable table =
        how
            ? new TextTable("  ", "lrrw", "instant", "at s", "±", "rule")
            : new TextTable("  ", "lrr", "instant", "at s", "±");
    instants.forEach(
        (key, instant) -> {
          Double at = instant.value();
          if (at != null) {
            String label = InstantWords.label(key);
            String value = ValueText.timeS(at);
            String uncertainty = ValueText.uncertainty(instant.uncertainty());
            if (how) {
              table.row(label, value, uncertainty, text(instant.rule()));
            } else {
              table.row(label, value, uncertainty);
            }
          }
        });
    print(table);
  }

  private void figures(Map<String, Measured> figures) {
    TextTable table =
        new TextTable("  ", "lrrllw", "figure", "value", "±", "unit", "phase", "more");
    figures.forEach(
        (key, figure) -> {
          Double value = figure.value();
          if (value != null) {
            List<String> cells = new ArrayList<>();
            cells.add(FigureKey.labelOf(key));
            cells.add(ValueText.value(value, figure.uncertainty()));
            cells.add(ValueText.uncertainty(figure.uncertainty()));
            cells.add(figure.unit());
            cells.add(text(figure.phase()));
            cells.add(more(figure));
            table.row(cells.toArray(String[]::new));
            table.under(how ? window(figure) + text(figure.rule()) : null);
          }
        });
    print(table);
  }

  private void missing(Map<String, Measured> instants, Map<String, Measured> figures) {
    Map<String, List<String>> labelsOfReason = new LinkedHashMap<>();
    instants.forEach((key, m) -> add(labelsOfReason, InstantWords.label(key), m));
    figures.forEach((key, m) -> add(labelsOfReason, FigureKey.labelOf(key), m));
    if (!labelsOfReason.isEmpty()) {
      screen.line("  not to be had:");
      labelsOfReason.forEach(
          (why, labels) -> screen.prose("    ", why + ": " + String.join(", ", labels)));
    }
  }

  private static void add(Map<String, List<String>> labelsOfReason, String label, Measured m) {
    if (!m.isPresent()) {
      labelsOfReason.computeIfAbsent(text(m.why()), why -> new ArrayList<>()).add(label);
    }
  }

  private static String more(Measured figure) {
    List<String> parts = new ArrayList<>();
    if (figure.phases().size() > 1) {
      figure
          .phases()
          .forEach(
              (phase, value) ->
                  parts.add(phase + " " + ValueText.value(value, figure.uncertainty())));
    }
    figure
        .parts()
        .forEach(
            (name, value) -> parts.add(name + " " + ValueText.value(value, figure.uncertainty())));
    return String.join(", ", parts);
  }

  private static String window(Measured figure) {
    Double from = figure.fromS();
    Double to = figure.toS();
    return from == null || to == null
        ? ""
        : ValueText.timeS(from) + " to " + ValueText.timeS(to) + " s: ";
  }

  private static String text(@Nullable String text) {
    return text == null ? "" : text;
  }

  private void print(TextTable table) {
    if (!table.isEmpty()) {
      screen.table(table);
    }
  }
}
