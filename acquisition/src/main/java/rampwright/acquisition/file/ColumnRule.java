package rampwright.acquisition.file;

import org.jspecify.annotations.Nullable;

/**
 * Which column of a foreign file is a channel, and how its numbers become the channel's unit.
 *
 * @param name the column's header (or the COMTRADE channel's name); null when given by index
 * @param index the column's number counted from 1 (the first cell of a line is 1); null when by
 *     name
 * @param unit the unit the file's numbers are in, for example {@code kA}; null to take the header's
 *     or the channel's own. With a scale it is only a label
 * @param scale value x scale + offset, in the channel's unit; null when the unit decides
 * @param offset see scale; null for 0
 */
public record ColumnRule(
    @Nullable String name,
    @Nullable Integer index,
    @Nullable String unit,
    @Nullable Double scale,
    @Nullable Double offset) {
  public ColumnRule {
    if ((name == null) == (index == null)) {
      throw new IllegalArgumentException("a column is given by name or by index, one of the two");
    }
  }
}
