package rampwright.acquisition.file;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.ColumnTable.Column;
import rampwright.acquisition.file.ColumnTable.Content;
import rampwright.acquisition.file.HeaderMeaning.Word;
import rampwright.acquisition.file.UnitTable.Dimension;
import rampwright.acquisition.file.UnitTable.Unit;

/** Finds what tells the time: a column of seconds, wall-clock stamps, a counter, a stated rate. */
final class ColumnTime {
  private static final double EPOCH_S = 1e8;
  private static final double EPOCH_MS = 1e11;
  private static final double EPOCH_US = 1e14;
  private static final double LONGEST_PLAIN_STEP = 1;

  /**
   * How the time is told.
   *
   * @param slot null when rows are counted at the given rate
   * @param dateColumn 0 based; -1 when the date does not stand apart
   * @param claimed 0 based columns this takes up
   */
  record Choice(
      CsvPlan.@Nullable Slot slot,
      int dateColumn,
      CsvPlan.Base base,
      CsvTimeAxis.Stamps stamps,
      ColumnReading reading,
      @Nullable String startUtc,
      List<Integer> claimed) {}

  private final String file;
  private final ColumnTable table;
  private final ReadContext context;
  private final List<String> warnings;

  ColumnTime(String file, ColumnTable table, ReadContext context, List<String> warnings) {
    this.file = file;
    this.table = table;
    this.context = context;
    this.warnings = warnings;
  }

  static Choice counted(double rateHz) {
    ColumnReading reading =
        new ColumnReading(
            ColumnMapping.TIME, 0, "", "", 1 / rateHz, 0, "s", "rate given, no column of time");
    return new Choice(
        null, -1, CsvPlan.Base.NONE, new CsvTimeAxis.Stamps(0, 0, false), reading, null, List.of());
  }

  /** The time by a person's rule. */
  Choice ruled(Column column, ColumnRule rule) throws TraceFileException {
    if (column.content() != Content.NUMBERS && column.content() != Content.NOTHING) {
      return stamped(column, null, "given");
    }
    Double scale = rule.scale();
    double offset = rule.offset() == null ? 0 : rule.offset();
    String unitText = rule.unit() != null ? rule.unit() : column.head().unitText();
    if (scale != null) {
      if (!(scale > 0) || Double.isInfinite(scale)) {
        throw new TraceFileException(
            file, "[columns] time: scale = " + scale + "; seconds per count are above 0");
      }
      return number(column, scale, offset, unitText, "given");
    }
    Unit unit = rule.unit() != null ? UnitTable.find(rule.unit()) : column.head().unit();
    if (unit == null ? !unitText.isEmpty() : unit.dimension() != Dimension.TIME) {
      throw new TraceFileException(
          file,
          "[columns] time: \""
              + unitText
              + "\" is no unit of time that is known; s, ms, us, min or h, or a scale in s");
    }
    return number(column, unit == null ? 1 : unit.factor(), offset, unitText, "given");
  }

  /** The time as the headers and first rows tell it. */
  Choice guessed() throws TraceFileException {
    List<Column> numbers = new ArrayList<>();
    List<Column> stamps = new ArrayList<>();
    List<Column> dates = new ArrayList<>();
    List<Column> clocks = new ArrayList<>();
    List<Column> texts = new ArrayList<>();
    for (Column column : table.columns()) {
      boolean named = ColumnGuess.isTime(column) || isCanonical(column);
      switch (column.content()) {
        case NUMBERS -> {
          if (named) {
            numbers.add(column);
          }
        }
        case DATE_TIME -> stamps.add(column);
        case DATE -> dates.add(column);
        case CLOCK -> clocks.add(column);
        case TEXT -> {
          if (named && column.head().unit() != null) {
            texts.add(column);
          }
        }
        case NOTHING -> {}
      }
    }
    List<Column> canonical = numbers.stream().filter(ColumnTime::isCanonical).toList();
    if (canonical.size() == 1) {
      numbers = canonical;
    }
    one(numbers);
    if (numbers.size() == 1) {
      return guessedNumber(numbers.get(0));
    }
    one(stamps);
    if (stamps.size() == 1) {
      return stamped(stamps.get(0), null, "");
    }
    one(clocks);
    if (clocks.size() == 1) {
      one(dates);
      return stamped(clocks.get(0), dates.isEmpty() ? null : dates.get(0), "");
    }
    Choice counter = ColumnCounter.find(table);
    if (counter != null) {
      return counter;
    }
    if (texts.size() == 1) {
      // Its cells are mostly unreadable; reading them says which and where.
      return guessedNumber(texts.get(0));
    }
    throw new TraceFileException(file, noTime());
  }

  private static boolean isCanonical(Column column) {
    return column.head().text().strip().equals("time_s");
  }

  private void one(List<Column> candidates) throws TraceFileException {
    if (candidates.size() > 1) {
      throw new TraceFileException(
          file, table.layout().headerLine(), 0, ColumnHelp.several("time", candidates, "s"), null);
    }
  }

  private String noTime() {
    StringBuilder text = new StringBuilder("no column tells the time; columns are ");
    text.append(table.names());
    for (Column column : table.columns()) {
      if (isCounter(column)) {
        text.append("; ")
            .append(column.shown())
            .append(" seems to count rows: give it with scale = seconds per count");
      }
    }
    for (String note : table.layout().notes()) {
      String lower = note.toLowerCase(Locale.ROOT);
      if ((lower.contains("sampl") && (lower.contains("rate") || lower.contains("freq")))
          || lower.contains("abtast")) {
        text.append("; the file says \"")
            .append(note.length() > 60 ? note.substring(0, 60) : note)
            .append("\": if that is the rate of the rows, give it");
        break;
      }
    }
    return ColumnHelp.withExample(
        text.toString(),
        table.hasHeader() && !table.columns().isEmpty()
            ? "time = { " + table.columns().get(0).rule() + ", unit = \"s\" }"
            : "time = { index = 1, unit = \"s\" }",
        "# or, when the rows are evenly spaced: time = { rate_Hz = 1000 }");
  }

  static boolean isCounter(Column column) {
    return column.meaning().has(Word.COUNTER)
        && column.content() == Content.NUMBERS
        && column.head().name().length() <= 8
        && column.meaning().quantity() == null;
  }

  private Choice guessedNumber(Column column) throws TraceFileException {
    Unit unit = column.head().unit();
    String unitText = column.head().unitText();
    double first = firstValue(column);
    if (unit != null) {
      return number(column, unit.factor(), 0, unitText, "");
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
      return number(column, factor, 0, seconds, "");
    }
    double step = typicalStep(column);
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
    return number(column, 1, 0, "s", "no unit given, read as s");
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

  private Choice number(
      Column column, double factor, double offset, String unitText, String remark) {
    char decimal = table.layout().dialect().decimal();
    List<String> cells = table.cells(column.index());
    double first = firstValue(column);
    boolean epoch = first * factor >= EPOCH_S && offset == 0;
    CsvPlan.Base base = CsvPlan.Base.NONE;
    String startUtc = null;
    if (epoch) {
      String cell =
          cells.stream().filter(c -> CsvCells.isNumber(c, decimal)).findFirst().orElse("0");
      base = new CsvPlan.Base(CsvClock.Order.DAY_FIRST, 0, 0, cell);
      startUtc = epochInstant(new BigDecimal(cell.replace(',', '.')), factor);
    }
    return new Choice(
        new CsvPlan.Slot(
            column.index(), epoch ? CsvPlan.Kind.EPOCH : CsvPlan.Kind.NUMBER, factor, offset, true),
        -1,
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
            epoch ? "since 1970; time 0 is the first row" : remark),
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

  private Choice stamped(Column column, @Nullable Column date, String remark)
      throws TraceFileException {
    List<String> cells = table.cells(column.index());
    List<String> dates = date == null ? cells : table.cells(date.index());
    CsvClock.Order order = CsvClock.orderOf(dates);
    CsvClock clock = new CsvClock(order);
    String first = cells.stream().filter(CsvClock::looksLikeStamp).findFirst().orElse("");
    if (!clock.parse(first) || !clock.hasClock()) {
      throw new TraceFileException(
          file,
          table.layout().dataLine(),
          column.index() + 1,
          "\""
              + CsvProblems.shown(first)
              + "\" is no time of day that is understood; export it as year-month-day"
              + " hour:minute:second",
          null);
    }
    long nanos = clock.nanosOfDay() - clock.offsetS() * 1_000_000_000L;
    CsvClock day = clock;
    if (date != null) {
      day = new CsvClock(order);
      day.parse(dates.stream().filter(CsvClock::looksLikeStamp).findFirst().orElse(""));
    }
    boolean dated = day.hasDate();
    if (day.isAmbiguous()) {
      warnings.add(
          "the date \""
              + CsvProblems.shown(dates.get(0))
              + "\" may be day first or month first; the day of the recording is left open");
    }
    CsvPlan.Base base = new CsvPlan.Base(order, dated ? day.epochDay() : 0, nanos, "");
    String where = date == null ? "" : "date in column " + date.shown() + "; ";
    String local =
        dated && !day.isAmbiguous()
            ? LocalDate.ofEpochDay(day.epochDay()) + "T" + LocalTime.ofNanoOfDay(clock.nanosOfDay())
            : first;
    List<Integer> claimed = new ArrayList<>(List.of(column.index()));
    if (date != null) {
      claimed.add(date.index());
    }
    return new Choice(
        new CsvPlan.Slot(column.index(), CsvPlan.Kind.STAMP, 1, 0, true),
        date == null ? -1 : date.index(),
        base,
        new CsvTimeAxis.Stamps(ColumnResolution.ofClocks(cells), 0, !dated),
        new ColumnReading(
            ColumnMapping.TIME,
            column.index() + 1,
            column.head().text().strip(),
            "wall clock",
            1,
            0,
            "s",
            where + "time 0 is " + local + (remark.isEmpty() ? "" : "; " + remark)),
        dated && !day.isAmbiguous() ? startUtc(column, date, clock, day) : null,
        claimed);
  }

  private @Nullable String startUtc(
      Column column, @Nullable Column date, CsvClock clock, CsvClock day) {
    LocalDateTime local =
        LocalDateTime.of(
            LocalDate.ofEpochDay(day.epochDay()), LocalTime.ofNanoOfDay(clock.nanosOfDay()));
    String heads = column.head().text() + (date == null ? "" : date.head().text());
    ZoneId zone = context.zone();
    if (clock.hasOffset()) {
      zone = ZoneOffset.ofTotalSeconds(clock.offsetS());
    } else if (heads.contains("UTC") || heads.contains("GMT")) {
      zone = ZoneOffset.UTC;
    }
    if (zone == null) {
      warnings.add(
          "the stamps name no offset from UTC; the instant of time 0 ("
              + local
              + " on the recorder's clock) is left open");
      return null;
    }
    return local.atZone(zone).toInstant().toString();
  }
}
