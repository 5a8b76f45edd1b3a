package rampwright.acquisition.file;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Dates as spreadsheets keep them: days since 1899-12-30, the time of day as their fraction.
 *
 * <p>Source: ISO/IEC 29500-1 (date base 1900), 18.17.4.1, from memory; days from 1900-03-01 on.
 */
final class ColumnSerialDays {
  private static final LocalDate DAY_0 = LocalDate.of(1899, 12, 30);

  /** 1954 to 2119. */
  private static final double EARLIEST = 20_000;

  private static final double LATEST = 80_000;

  /** A column of seconds with steps below this would be sampled faster than any recorder here. */
  private static final double SHORTEST_STEP_S = 1e-5;

  private static final long NANOS_PER_DAY = 86_400_000_000_000L;

  private ColumnSerialDays() {}

  /** Whether the first numbers may be such days. */
  static boolean mayBe(List<String> cells, char decimal, double step) {
    for (String cell : cells) {
      if (CsvCells.isNumber(cell, decimal)) {
        double value = CsvCells.number(cell, decimal);
        if (!(value >= EARLIEST && value <= LATEST)) {
          return false;
        }
      }
    }
    return step > 0 && step < SHORTEST_STEP_S;
  }

  /** Local date and time of the first number; null when it is none of a calendar. */
  static @Nullable LocalDateTime first(String cell) {
    BigDecimal days = CsvCells.exact(cell);
    if (days.doubleValue() < 61 || days.doubleValue() > LATEST) {
      return null;
    }
    long whole = days.longValue();
    BigDecimal part = days.subtract(BigDecimal.valueOf(whole));
    // A day's tenth decimal is 9 microseconds; nothing finer is meant.
    long micros =
        part.multiply(BigDecimal.valueOf(NANOS_PER_DAY / 1000))
            .setScale(0, RoundingMode.HALF_EVEN)
            .longValue();
    return DAY_0.plusDays(whole).atStartOfDay().plusNanos(micros * 1000);
  }
}
