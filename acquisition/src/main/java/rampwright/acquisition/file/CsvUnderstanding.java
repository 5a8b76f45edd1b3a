package rampwright.acquisition.file;

import java.util.ArrayList;
import java.util.List;

/**
 * What was understood of a file from its beginning, before its numbers are used.
 *
 * @param file name as given
 * @param table encoding, separators, where header and rows are; one line for people
 * @param columns the time and each channel
 * @param notUsed columns that are no channel, with the reason where there is one
 * @param warnings what was assumed or could not be used
 * @param notes comment and preamble lines
 */
public record CsvUnderstanding(
    String file,
    String table,
    List<ColumnReading> columns,
    List<String> notUsed,
    List<String> warnings,
    List<String> notes) {
  public CsvUnderstanding {
    columns = List.copyOf(columns);
    notUsed = List.copyOf(notUsed);
    warnings = List.copyOf(warnings);
    notes = List.copyOf(notes);
  }

  /** One line for the table, each column read, and all that are not. */
  public List<String> lines() {
    List<String> lines = new ArrayList<>();
    lines.add(table);
    columns.forEach(column -> lines.add(column.line()));
    if (!notUsed.isEmpty()) {
      lines.add("not used: " + String.join(", ", notUsed));
    }
    return lines;
  }
}
