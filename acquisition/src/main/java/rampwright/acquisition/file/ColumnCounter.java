package rampwright.acquisition.file;

import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.ColumnTable.Column;
import rampwright.acquisition.file.ColumnTable.Content;

/** A counter column whose start and step stand in the rows above it, as scopes write it. */
final class ColumnCounter {
  private ColumnCounter() {}

  /** The time it tells; null when there is no such column. */
  static ColumnTime.@Nullable Choice find(ColumnTable table) {
    List<String> header = table.layout().header();
    int start = indexOf(header, "start");
    int step = Math.max(indexOf(header, "increment"), indexOf(header, "step"));
    List<String> below = table.layout().units();
    if (start < 0 || step < 0 || start >= below.size() || step >= below.size()) {
      return null;
    }
    char decimal = table.layout().dialect().decimal();
    String startCell = below.get(start);
    String stepCell = below.get(step);
    if (!CsvCells.isNumber(startCell, decimal) || !CsvCells.isNumber(stepCell, decimal)) {
      return null;
    }
    double stepS = CsvCells.number(stepCell, decimal);
    double startS = CsvCells.number(startCell, decimal);
    Column column = table.columns().get(0);
    if (!(stepS > 0) || column.content() != Content.NUMBERS) {
      return null;
    }
    return new ColumnTime.Choice(
        new CsvPlan.Slot(column.index(), CsvPlan.Kind.NUMBER, stepS, startS, true),
        -1,
        -1,
        1,
        CsvPlan.Base.NONE,
        new CsvTimeAxis.Stamps(stepS * 1e-6, 0, CsvTimeAxis.Clock.NONE, stepS),
        new ColumnReading(
            ColumnMapping.TIME,
            column.index() + 1,
            column.head().text().strip(),
            "count",
            stepS,
            startS,
            "s",
            "start and increment stand in the row under the header"),
        null,
        List.of(column.index(), start, step));
  }

  private static int indexOf(List<String> header, String name) {
    for (int i = 0; i < header.size(); i++) {
      if (header.get(i).equalsIgnoreCase(name)) {
        return i;
      }
    }
    return -1;
  }
}
