package rampwright.acquisition.file;

import java.util.Locale;

/**
 * How one column of a file is read.
 *
 * @param channel {@code time} or a channel key
 * @param column 1 based; 0 when the time is counted from rows
 * @param header the column's header as in the file; empty when there is none
 * @param unit the unit its numbers are in, as written
 * @param factor number x factor + offset is in the channel's unit
 * @param offset see factor
 * @param target the channel's unit
 * @param remark why it is read so, where that is not plain; empty otherwise
 */
public record ColumnReading(
    String channel,
    int column,
    String header,
    String unit,
    double factor,
    double offset,
    String target,
    String remark) {

  /** The column's number and header, for messages. */
  String place() {
    return header.isEmpty()
        ? Integer.toString(column)
        : column + " \"" + CsvProblems.shown(header) + "\"";
  }

  /** One line for people. */
  public String line() {
    StringBuilder line = new StringBuilder(channel).append(" <- ");
    if (column > 0) {
      line.append("column ").append(column);
      if (!header.isEmpty()) {
        line.append(" \"").append(CsvProblems.shown(header)).append('"');
      }
    } else {
      line.append("row number");
    }
    line.append(": ");
    if (factor == 1 && offset == 0) {
      line.append(unit.isEmpty() ? "as it is" : unit);
    } else {
      line.append(unit.isEmpty() ? "value" : unit)
          .append(String.format(Locale.ROOT, " x %s", CsvTimeAxis.number(factor)));
      if (offset != 0) {
        line.append(offset < 0 ? " - " : " + ").append(CsvTimeAxis.number(Math.abs(offset)));
      }
      line.append(target.isEmpty() ? "" : " = " + target);
    }
    return remark.isEmpty() ? line.toString() : line + "; " + remark;
  }
}
