package rampwright.acquisition.file;

import java.util.ArrayList;
import java.util.List;
import rampwright.acquisition.file.ColumnTable.Column;
import rampwright.acquisition.file.ColumnUnits.Conversion;
import rampwright.acquisition.file.UnitTable.Unit;
import rampwright.analysis.trace.ChannelName;

/** Applies a person's rules to the columns of a file. */
final class ColumnRules {
  private final String file;
  private final ColumnTable table;
  private final ReadContext context;

  ColumnRules(String file, ColumnTable table, ReadContext context) {
    this.file = file;
    this.table = table;
    this.context = context;
  }

  ChannelName channel(String key) throws TraceFileException {
    return ChannelName.ofKey(key)
        .orElseThrow(
            () ->
                new TraceFileException(
                    file, "[columns] " + key + " is no channel; channels are " + channelKeys()));
  }

  /** How a channel is read by a rule. */
  ColumnReading reading(String key, ColumnRule rule) throws TraceFileException {
    ChannelName channel = channel(key);
    Column column = column(key, rule);
    double offset = rule.offset() == null ? 0 : rule.offset();
    String unitText = rule.unit() != null ? rule.unit() : column.head().unitText();
    Double scale = rule.scale();
    double factor;
    String remark = "given";
    if (scale != null) {
      factor = scale;
      if (!Double.isFinite(scale) || scale == 0 || !Double.isFinite(offset)) {
        throw new TraceFileException(
            file, "[columns] " + key + ": scale must be a number other than 0, offset a number");
      }
    } else {
      Unit unit = rule.unit() != null ? UnitTable.find(rule.unit()) : column.head().unit();
      if (unit == null && !unitText.isEmpty()) {
        throw new TraceFileException(
            file,
            "[columns] "
                + key
                + ": the unit \""
                + CsvProblems.shown(unitText)
                + "\" is not known; give a known unit or a scale to "
                + channel.quantity().unit());
      }
      Conversion conversion =
          unit == null ? new Conversion(1, "") : ColumnUnits.convert(channel, unit, context);
      if (!conversion.isKnown()) {
        throw new TraceFileException(
            file,
            table.layout().headerLine(),
            column.index() + 1,
            "[columns] "
                + key
                + ": column "
                + column.shown()
                + " "
                + conversion.remark()
                + ", for example:\n[columns]\n"
                + key
                + " = { "
                + column.rule()
                + ", unit = \""
                + unitText
                + "\", scale = 100.0 }",
            null);
      }
      factor = conversion.factor();
      remark = conversion.remark().isEmpty() ? remark : remark + "; " + conversion.remark();
    }
    return reading(channel, column, unitText, factor, offset, remark);
  }

  static ColumnReading reading(
      ChannelName channel,
      Column column,
      String unit,
      double factor,
      double offset,
      String remark) {
    return new ColumnReading(
        channel.key(),
        column.index() + 1,
        column.head().text().strip(),
        unit,
        factor,
        offset,
        channel.quantity().unit(),
        remark);
  }

  /** The column a rule names. */
  Column column(String key, ColumnRule rule) throws TraceFileException {
    Integer index = rule.index();
    List<Column> columns = table.columns();
    if (index != null) {
      if (index < 1 || index > columns.size()) {
        throw new TraceFileException(
            file,
            "[columns] "
                + key
                + ": index = "
                + index
                + ", but the file has columns 1 to "
                + columns.size()
                + ": "
                + table.names());
      }
      return columns.get(index - 1);
    }
    String name = rule.name() == null ? "" : rule.name().strip();
    List<Column> found =
        columns.stream().filter(c -> c.head().text().strip().equals(name)).toList();
    if (found.isEmpty()) {
      found = columns.stream().filter(c -> c.head().text().strip().equalsIgnoreCase(name)).toList();
    }
    if (found.isEmpty()) {
      found = columns.stream().filter(c -> c.head().name().equalsIgnoreCase(name)).toList();
    }
    if (found.size() == 1) {
      return found.get(0);
    }
    throw new TraceFileException(
        file,
        table.layout().headerLine(),
        0,
        found.isEmpty()
            ? "[columns] "
                + key
                + ": no column is named \""
                + name
                + "\"; columns are "
                + table.names()
            : "[columns] "
                + key
                + ": "
                + found.size()
                + " columns are named \""
                + name
                + "\"; give index = "
                + (found.get(0).index() + 1)
                + " or another instead",
        null);
  }

  private static String channelKeys() {
    List<String> keys = new ArrayList<>();
    for (ChannelName name : ChannelName.values()) {
      keys.add(name.key());
    }
    return ColumnMapping.TIME + ", " + String.join(", ", keys);
  }
}
