package rampwright.acquisition.file;

import java.util.Map;

/**
 * A person's word on the columns of a file: the {@code [columns]} table.
 *
 * @param rules by {@code time} or a channel key ({@code i1}, {@code speed}, ...). Columns it does
 *     not name are still guessed, unless they were claimed here
 */
public record ColumnMapping(Map<String, ColumnRule> rules) {
  /** The key of the time column. */
  public static final String TIME = "time";

  /** Nothing said: everything is guessed. */
  public static final ColumnMapping NONE = new ColumnMapping(Map.of());

  public ColumnMapping {
    rules = Map.copyOf(rules);
  }
}
