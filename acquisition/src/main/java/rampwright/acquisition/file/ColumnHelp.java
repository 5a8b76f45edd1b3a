package rampwright.acquisition.file;

import java.util.List;
import java.util.stream.Collectors;
import rampwright.acquisition.file.ColumnTable.Column;

/** Wording of what a person has to decide, with the table that decides it. */
final class ColumnHelp {
  private ColumnHelp() {}

  static String several(String channel, List<Column> candidates, String unit) {
    String names = candidates.stream().map(Column::shown).collect(Collectors.joining(", "));
    String unitText = candidates.get(0).head().unitText();
    return withExample(
        candidates.size() + " columns could be " + channel + ": " + names,
        channel
            + " = { "
            + candidates.get(0).rule()
            + (unitText.isEmpty() && !unit.isEmpty() ? ", unit = \"" + unit + "\"" : "")
            + " }");
  }

  /** A problem with the lines of a {@code [columns]} table that would settle it. */
  static String withExample(String problem, String... lines) {
    return problem
        + "; say which in a [columns] table (in settings.toml or with --columns FILE), for example:\n"
        + "[columns]\n"
        + String.join("\n", lines);
  }
}
