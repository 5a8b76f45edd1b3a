package rampwright.acquisition.file;

import java.util.List;
import java.util.Map;

/**
 * What the parser takes out of each row.
 *
 * @param minCells fewest cells of a good row
 * @param maxCells most cells of a good row that are not blank
 * @param slots the numbers taken, in order of their place in the result; the time first unless rows
 *     are counted
 * @param dateColumn 0 based column of the date when it stands apart from the clock; -1 when not
 * @param base the first row's stamp, which is time 0 of stamped files
 * @param fractionColumn 0 based column of the parts of a second when they stand apart from the
 *     clock; -1 when not
 * @param fractionUnitS what its numbers count, s
 * @param units by 0 based column: the unit that factors are from, for cells that name their own
 * @param header the cells above the rows, by which they are known when they come again
 */
record CsvPlan(
    CsvDialect dialect,
    int minCells,
    int maxCells,
    List<Slot> slots,
    int dateColumn,
    int fractionColumn,
    double fractionUnitS,
    Base base,
    List<String> header,
    Map<Integer, UnitTable.Unit> units) {

  /** How a cell becomes a number. */
  enum Kind {
    NUMBER,
    /** 0 or 1, or a word for it. */
    RUN,
    /** Wall clock, to seconds since the base. */
    STAMP,
    /** Seconds or milliseconds since 1970, to seconds since the base, without losing digits. */
    EPOCH
  }

  /**
   * One number of a row.
   *
   * @param column 0 based
   * @param isTime a row without it is not a row
   */
  record Slot(int column, Kind kind, double factor, double offset, boolean isTime) {}

  /**
   * Time 0 of stamped files.
   *
   * @param epochDay day of the first stamp; 0 for clocks without date
   * @param nanosOfDay of the first stamp, less its offset from UTC
   * @param epochCell the first cell of a column of epoch seconds; empty for others
   */
  record Base(CsvClock.Order order, long epochDay, long nanosOfDay, String epochCell) {
    static final Base NONE = new Base(CsvClock.Order.DAY_FIRST, 0, 0, "");
  }

  CsvPlan {
    slots = List.copyOf(slots);
    header = List.copyOf(header);
    units = Map.copyOf(units);
  }
}
