package rampwright.acquisition.file;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.ColumnTable.Column;
import rampwright.acquisition.file.ColumnTable.Content;
import rampwright.acquisition.file.HeaderMeaning.Word;
import rampwright.acquisition.file.UnitTable.Dimension;
import rampwright.acquisition.file.UnitTable.Unit;

/** Finds what tells the time: a column of seconds, wall-clock stamps, a counter, a stated rate. */
final class ColumnTime {
  private static final int LONGEST_COUNTER_NAME = 16;

  /**
   * How the time is told.
   *
   * @param slot null when rows are counted at the given rate
   * @param dateColumn 0 based; -1 when the date does not stand apart
   * @param fractionColumn 0 based; -1 when parts of a second do not stand apart
   * @param fractionUnitS what its numbers count, s
   * @param claimed 0 based columns this takes up
   */
  record Choice(
      CsvPlan.@Nullable Slot slot,
      int dateColumn,
      int fractionColumn,
      double fractionUnitS,
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

  static Choice counted(double intervalS, String remark) {
    ColumnReading reading =
        new ColumnReading(ColumnMapping.TIME, 0, "", "", intervalS, 0, "s", remark);
    return new Choice(
        null,
        -1,
        -1,
        1,
        CsvPlan.Base.NONE,
        new CsvTimeAxis.Stamps(0, 0, CsvTimeAxis.Clock.NONE, intervalS),
        reading,
        null,
        List.of());
  }

  private ColumnSeconds numbers() {
    return new ColumnSeconds(file, table, context, warnings);
  }

  /** The time by a person's rule. */
  Choice ruled(Column column, ColumnRule rule) throws TraceFileException {
    if (column.content() != Content.NUMBERS && column.content() != Content.NOTHING) {
      return stamped(column, null, null, "given", CsvClock.Order.named(rule.unit()));
    }
    Double scale = rule.scale();
    double offset = rule.offset() == null ? 0 : rule.offset();
    String unitText = rule.unit() != null ? rule.unit() : column.head().unitText();
    if (scale != null) {
      if (!(scale > 0) || Double.isInfinite(scale)) {
        throw new TraceFileException(
            file, "[columns] time: scale = " + scale + "; seconds per count are above 0");
      }
      return numbers().choice(column, scale, offset, unitText, "given");
    }
    Unit unit = rule.unit() != null ? UnitTable.find(rule.unit()) : column.head().unit();
    if (unit == null ? !unitText.isEmpty() : unit.dimension() != Dimension.TIME) {
      throw new TraceFileException(
          file,
          "[columns] time: \""
              + unitText
              + "\" is no unit of time that is known; s, ms, us, min or h, or a scale in s");
    }
    return numbers().choice(column, unit == null ? 1 : unit.factor(), offset, unitText, "given");
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
    Column fraction = null;
    if (numbers.size() == 1 && stamps.size() + clocks.size() == 1) {
      Column clock = stamps.isEmpty() ? clocks.get(0) : stamps.get(0);
      if (ColumnFraction.is(table, numbers.get(0), clock)) {
        fraction = numbers.remove(0);
      }
    }
    one(numbers);
    if (numbers.size() == 1) {
      return numbers().guessed(numbers.get(0));
    }
    one(stamps);
    if (stamps.size() == 1) {
      return stamped(stamps.get(0), null, fraction, "", null);
    }
    one(clocks);
    if (clocks.size() == 1) {
      one(dates);
      return stamped(clocks.get(0), dates.isEmpty() ? null : dates.get(0), fraction, "", null);
    }
    Choice counter = ColumnCounter.find(table);
    if (counter != null) {
      return counter;
    }
    Choice stated = stated();
    if (stated != null) {
      return stated;
    }
    if (texts.size() == 1) {
      // Its cells are mostly unreadable; reading them says which and where.
      return numbers().guessed(texts.get(0));
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

  /** A counter of rows, or the rows themselves, with the rate that the lines above state. */
  private @Nullable Choice stated() throws TraceFileException {
    CsvLayout layout = table.layout();
    List<CsvStatedRate> rates = CsvStatedRate.of(layout.notes(), layout.dialect().decimal());
    List<Column> counters = table.columns().stream().filter(ColumnTime::isCounter).toList();
    if (rates.size() > 1) {
      String[] lines = new String[rates.size()];
      StringBuilder said = new StringBuilder();
      for (int i = 0; i < lines.length; i++) {
        CsvStatedRate rate = rates.get(i);
        said.append(i == 0 ? "\"" : ", \"").append(rate.text()).append('"');
        lines[i] =
            (i == 0 ? "" : "# or: ")
                + ("time = { rate_Hz = " + CsvTimeAxis.number(1 / rate.intervalS()) + " }");
      }
      throw new TraceFileException(
          file,
          ColumnHelp.withExample(
              "no column tells the time, and the lines above the table state different rates: "
                  + said,
              lines));
    }
    if (rates.isEmpty() || counters.size() > 1) {
      return null;
    }
    CsvStatedRate rate = rates.get(0);
    String remark = "from \"" + rate.text() + "\" above the table";
    return counters.isEmpty()
        ? counted(rate.intervalS(), remark)
        : numbers().choice(counters.get(0), rate.intervalS(), 0, "count", remark);
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
        && column.head().name().length() <= LONGEST_COUNTER_NAME
        && column.meaning().quantity() == null;
  }

  private Choice stamped(
      Column column,
      @Nullable Column date,
      @Nullable Column fraction,
      String remark,
      CsvClock.@Nullable Order given)
      throws TraceFileException {
    List<String> cells = table.cells(column.index());
    List<String> dates = date == null ? cells : table.cells(date.index());
    CsvClock.Order order = given != null ? given : CsvClock.orderOf(dates);
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
    double unitS = 1;
    double resolutionS = ColumnResolution.ofClocks(cells);
    if (fraction != null) {
      claimed.add(fraction.index());
      unitS = ColumnFraction.unitS(fraction);
      resolutionS = unitS;
      where += "parts of a second in column " + fraction.shown() + "; ";
    }
    return new Choice(
        new CsvPlan.Slot(column.index(), CsvPlan.Kind.STAMP, 1, 0, true),
        date == null ? -1 : date.index(),
        fraction == null ? -1 : fraction.index(),
        unitS,
        base,
        new CsvTimeAxis.Stamps(resolutionS, 0, kind(clock, dated), 1),
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

  private static CsvTimeAxis.Clock kind(CsvClock clock, boolean dated) {
    if (clock.hasOffset()) {
      return CsvTimeAxis.Clock.NONE;
    }
    return dated ? CsvTimeAxis.Clock.LOCAL : CsvTimeAxis.Clock.TIME_OF_DAY;
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
    } else if (!clock.zoneName().isEmpty()) {
      warnings.add(
          "the stamps name the zone \""
              + clock.zoneName()
              + "\", which stands for no one offset from UTC; the instant of time 0 ("
              + local
              + ") is left open");
      return null;
    }
    return instantOf(local, zone, warnings);
  }

  /** The instant of a local time; null, and said, where no zone is known. */
  static @Nullable String instantOf(
      LocalDateTime local, @Nullable ZoneId zone, List<String> warnings) {
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
