package rampwright.acquisition.file;

import java.math.BigDecimal;
import rampwright.acquisition.file.CsvProblems.Kind;

/**
 * Reads cells that are not plain numbers: words, stamps, epochs. One instance serves one thread.
 */
final class CsvSlowCell {
  private static final long NANOS_PER_S = 1_000_000_000L;
  private static final long S_PER_DAY = 86_400L;
  private static final int LONGEST_EPOCH = 40;

  private final CsvPlan plan;
  private final char decimal;
  private final CsvClock clock;
  private final BigDecimal epochBase;
  private boolean timeIsBad;

  CsvSlowCell(CsvPlan plan) {
    this.plan = plan;
    this.decimal = plan.dialect().decimal();
    this.clock = new CsvClock(plan.base().order());
    String cell = plan.base().epochCell();
    this.epochBase = cell.isEmpty() ? BigDecimal.ZERO : CsvCells.exact(cell);
  }

  /** Whether the last cell was to tell the time and could not be read. */
  boolean timeIsBad() {
    return timeIsBad;
  }

  /** Value of a cell that is not blank; NaN when it has none, which is noted in the block. */
  double value(CsvBlock block, String cell, int slot, boolean time) {
    CsvPlan.Slot rule = plan.slots().get(slot);
    timeIsBad = false;
    return switch (rule.kind()) {
      case STAMP -> stamp(block, cell);
      case EPOCH -> epoch(cell, rule);
      case RUN -> {
        double word = CsvCells.runWord(cell);
        yield Double.isNaN(word) ? number(block, cell, rule, time) : word;
      }
      case NUMBER -> number(block, cell, rule, time);
    };
  }

  private double number(CsvBlock block, String cell, CsvPlan.Slot rule, boolean time) {
    if (CsvCells.isNumber(cell, decimal)) {
      double value = CsvCells.number(cell, decimal) * rule.factor() + rule.offset();
      return Double.isInfinite(value) ? missing(block, Kind.INFINITE, rule, cell) : value;
    }
    CsvCells.WithUnit parts = CsvCells.withUnit(cell, decimal);
    UnitTable.Unit unit = parts == null ? null : plan.units().get(rule.column());
    if (parts != null && unit != null && unit.dimension() == parts.unit().dimension()) {
      double own = parts.unit().factor() / unit.factor();
      return CsvCells.number(parts.number(), decimal) * own * rule.factor() + rule.offset();
    }
    if (time && Double.isNaN(CsvCells.grouped(cell, decimal))) {
      timeIsBad = true;
      return Double.NaN;
    }
    if (CsvCells.saysNoReading(cell)) {
      return missing(block, Kind.NO_READING, rule, cell);
    }
    if (CsvCells.isInfinite(cell)) {
      return missing(block, Kind.INFINITE, rule, cell);
    }
    double grouped = CsvCells.grouped(cell, decimal);
    if (Double.isNaN(grouped)) {
      return missing(block, Kind.TEXT, rule, cell);
    }
    missing(block, Kind.GROUPED, rule, cell);
    return grouped * rule.factor() + rule.offset();
  }

  private static double missing(CsvBlock block, Kind kind, CsvPlan.Slot rule, String cell) {
    block.problems().add(kind, block.lines(), rule.column() + 1, cell);
    return Double.NaN;
  }

  /** Seconds since the base; with the date in a column of its own, those of the clock alone. */
  private double stamp(CsvBlock block, String cell) {
    if (!clock.parse(cell) || !clock.hasClock()) {
      timeIsBad = true;
      return Double.NaN;
    }
    boolean dated = clock.hasDate() && plan.dateColumn() < 0;
    if (dated) {
      watchDate(block, clock);
    }
    long nanos = clock.nanosOfDay() - plan.base().nanosOfDay() - clock.offsetS() * NANOS_PER_S;
    long days = dated ? clock.epochDay() - plan.base().epochDay() : 0;
    return (days * S_PER_DAY * NANOS_PER_S + nanos) / (double) NANOS_PER_S;
  }

  private double epoch(String cell, CsvPlan.Slot rule) {
    if (cell.length() > LONGEST_EPOCH || !CsvCells.isNumber(cell, decimal)) {
      timeIsBad = true;
      return Double.NaN;
    }
    BigDecimal since = CsvCells.exact(cell).subtract(epochBase);
    return since.doubleValue() * rule.factor();
  }

  /** Notes a date that changed and might be read in two ways. */
  void watchDate(CsvBlock block, CsvClock read) {
    if (read.isUndecided() && read.epochDay() != plan.base().epochDay()) {
      block.noteDateChange();
    }
  }
}
