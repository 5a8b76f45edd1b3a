package rampwright.acquisition.file;

import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * A person's word on the columns of a file: the {@code [columns]} table.
 *
 * @param rules by {@code time} or a channel key ({@code i1}, {@code speed}, ...). Columns it does
 *     not name are still guessed, unless they were claimed here
 * @param rateHz rows per second of a file that has no time column ({@code time = { rate_Hz = 1000
 *     }}), above 0; null when a column tells the time
 */
public record ColumnMapping(Map<String, ColumnRule> rules, @Nullable Double rateHz) {
  /** The key of the time column. */
  public static final String TIME = "time";

  /** Nothing said: everything is guessed. */
  public static final ColumnMapping NONE = new ColumnMapping(Map.of());

  public ColumnMapping {
    rules = Map.copyOf(rules);
    if (rateHz != null && !(rateHz > 0 && rateHz <= 1e12)) {
      throw new IllegalArgumentException(
          "time: rate_Hz = " + rateHz + "; rows per second are above 0 and at most 1e12");
    }
    if (rateHz != null && rules.containsKey(TIME)) {
      throw new IllegalArgumentException(
          "time: a column and rate_Hz are both given; the time is one of the two");
    }
  }

  /** Rules alone; a column tells the time. */
  public ColumnMapping(Map<String, ColumnRule> rules) {
    this(rules, null);
  }
}
