package rampwright.app.cli;

import rampwright.app.envelope.FigureKey;
import rampwright.app.result.Comparison;
import rampwright.app.wording.ValueText;

/** Two trials side by side for people. */
final class ComparisonText {
  private ComparisonText() {}

  static void print(Screen screen, Comparison comparison) {
    screen.line("A: " + comparison.a().file());
    screen.line("B: " + comparison.b().file());
    screen.line("");
    TextTable table =
        new TextTable("  ", "lrrlrrw", "figure", "A", "B", "unit", "B - A", "%", "beyond doubt");
    for (Comparison.Row row : comparison.rows()) {
      Double difference = row.difference();
      Double a = row.a();
      Double b = row.b();
      if (a == null && b == null) {
        continue;
      }
      Double pct = row.differencePct();
      table.row(
          FigureKey.labelOf(row.figure()),
          a == null ? "-" : ValueText.value(a, row.uncertainty()),
          b == null ? "-" : ValueText.value(b, row.uncertainty()),
          row.unit(),
          difference == null ? "-" : ValueText.value(difference, row.uncertainty()),
          pct == null ? "-" : ValueText.percent(pct),
          judgement(row));
    }
    if (table.isEmpty()) {
      screen.line("There is nothing to set side by side: one of the traces shows no start.");
    } else {
      screen.table(table);
      screen.line("");
      screen.line(
          "beyond doubt: the difference exceeds twice its standard uncertainty (about 95 %).");
    }
  }

  private static String judgement(Comparison.Row row) {
    if (row.why() != null) {
      return row.why();
    }
    Boolean beyond = row.beyondUncertainty();
    return beyond == null ? "uncertainty not known" : beyond ? "yes" : "no";
  }
}
