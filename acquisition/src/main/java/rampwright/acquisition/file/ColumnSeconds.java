package rampwright.acquisition.file;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.ColumnTable.Column;
import rampwright.acquisition.file.ColumnTime.Choice;
import rampwright.acquisition.file.HeaderMeaning.Word;
import rampwright.acquisition.file.UnitTable.Unit;

/** A time told by numbers: seconds and their parts, seconds since 1970, days of a spreadsheet. */
final class ColumnSeconds {
  private static final double S_PER_DAY = 86_400;
  private static final double EPOCH_S = 1e8;
  private static final double EPOCH_MS = 1e11;
  private static final double EPOCH_US = 1e14;
  private static final double LONGEST_PLAIN_STEP = 1;

  private final String file;
  private final ColumnTable table;
  private final ReadContext context;
  private final List<String> warnings;

  ColumnSeconds(String file, ColumnTable table, ReadContext context, List<String> warnings) {
    this.file = file;
    this.table = table;
    this.context = context;
    this.warnings = warnings;
  }

  /** A column of numbers as its header and first rows tell it. */
  Choice guessed(Column column) throws TraceFileException {
    Unit unit = column.head().unit();
    String unitText = column.head().unitText();
    double first = firstValue(column);
    if (unit != null) {
      return choice(column, unit.factor(), 0, unitText, "");
    }
    if (!unitText.isEmpty()) {
      throw new TraceFileException(
          file,
          table.layout().headerLine(),
          column.index() + 1,
          ColumnHelp.withExample(
              "the unit \"" + CsvProblems.shown(unitText) + "\" of the time is not known",
              "time = { " + column.rule() + ", unit = \"s\" }"),
          null);
    }
    if (first >= EPOCH_S && first < 1e17) {
      double factor = first >= EPOCH_US ? 1e-6 : first >= EPOCH_MS ? 1e-3 : 1;
      String seconds = factor == 1 ? "s" : factor == 1e-3 ? "ms" : "us";
      warnings.add("column " + column.shown() + " has no unit; read as " + seconds + " since 1970");
      return choice(column, factor, 0, seconds, "");
    }
    double step = typicalStep(column);
    if (ColumnSerialDays.mayBe(
        table.cells(column.index()), table.layout().dialect().decimal(), step)) {
      if (column.meaning().has(Word.STAMP) || column.meaning().has(Word.DATE)) {
        return choice(column, S_PER_DAY, 0, "d", "");
      }
      throw new TraceFileException(
          file,
          table.layout().headerLine(),
          column.index() + 1,
          ColumnHelp.withExample(
              "the time has no unit and begins at "
                  + CsvTimeAxis.number(first)
                  + ", which may be days of a spreadsheet's calendar or seconds",
              "time = { " + column.rule() + ", unit = \"d\" }",
              "# or: time = { " + column.rule() + ", unit = \"s\" }"),
          null);
    }
    if (step > LONGEST_PLAIN_STEP) {
      throw new TraceFileException(
          file,
          table.layout().headerLine(),
          column.index() + 1,
          ColumnHelp.withExample(
              "the time has no unit and steps of "
                  + CsvTimeAxis.number(step)
                  + ", which may be seconds or milliseconds",
              "time = { " + column.rule() + ", unit = \"ms\" }"),
          null);
    }
    warnings.add("column " + column.shown() + " has no unit; read as s");
    return choice(column, 1, 0, "s", "no unit given, read as s");
  }

  private double firstValue(Column column) {
    List<String> cells = table.cells(column.index());
    char decimal = table.layout().dialect().decimal();
    for (String cell : cells) {
      if (CsvCells.isNumber(cell, decimal)) {
        return CsvCells.number(cell, decimal);
      }
    }
    return 0;
  }

  private double typicalStep(Column column) {
    char decimal = table.layout().dialect().decimal();
    List<Double> values = new ArrayList<>();
    for (String cell : table.cells(column.index())) {
      if (CsvCells.isNumber(cell, decimal)) {
        values.add(CsvCells.number(cell, decimal));
      }
    }
    List<Double> steps = new ArrayList<>();
    for (int i = 1; i < values.size(); i++) {
      steps.add(values.get(i) - values.get(i - 1));
    }
    steps.sort(null);
    return steps.isEmpty() ? 0 : steps.get(steps.size() / 2);
  }

  /** A column of numbers with a known factor to seconds. */
  Choice choice(Column column, double factor, double offset, String unitText, String remark) {
    char decimal = table.layout().dialect().decimal();
    List<String> cells = table.cells(column.index());
    double first = firstValue(column);
    boolean epoch = first * factor >= EPOCH_S && offset == 0;
    CsvPlan.Base base = CsvPlan.Base.NONE;
    String startUtc = null;
    String since = "since 1970; time 0 is the first row";
    if (epoch) {
      String cell =
          cells.stream().filter(c -> CsvCells.isNumber(c, decimal)).findFirst().orElse("0");
      base = new CsvPlan.Base(CsvClock.Order.DAY_FIRST, 0, 0, cell);
      LocalDateTime local = factor == S_PER_DAY ? ColumnSerialDays.first(cell) : null;
      startUtc =
          local == null
              ? epochInstant(CsvCells.exact(cell), factor)
              : ColumnTime.instantOf(local, context.zone(), warnings);
      since = local == null ? since : "since 1899-12-30 as in spreadsheets; time 0 is " + local;
    }
    return new Choice(
        new CsvPlan.Slot(
            column.index(), epoch ? CsvPlan.Kind.EPOCH : CsvPlan.Kind.NUMBER, factor, offset, true),
        -1,
        -1,
        1,
        base,
        ColumnResolution.ofNumbers(cells, decimal, factor),
        new ColumnReading(
            ColumnMapping.TIME,
            column.index() + 1,
            column.head().text().strip(),
            unitText,
            factor,
            offset,
            "s",
            epoch ? since : remark),
        startUtc,
        List.of(column.index()));
  }

  private static @Nullable String epochInstant(BigDecimal value, double factor) {
    BigDecimal seconds = value.multiply(BigDecimal.valueOf(factor));
    if (seconds.abs().compareTo(BigDecimal.valueOf(1e11)) > 0) {
      return null;
    }
    long whole = seconds.longValue();
    long nanos = seconds.subtract(BigDecimal.valueOf(whole)).movePointRight(9).longValue();
    return Instant.ofEpochSecond(whole, nanos).toString();
  }
}
