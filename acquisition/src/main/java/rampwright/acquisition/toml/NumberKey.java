package rampwright.acquisition.toml;

import org.jspecify.annotations.Nullable;

/**
 * A key whose value is a number, with the range that makes sense for it. The range is wide enough
 * for every real machine and narrow enough to catch a number in another unit or on the wrong line.
 *
 * @param name key in the file, unit included
 * @param unit unit symbol for messages; empty for a ratio or a count
 * @param min smallest value allowed
 * @param max largest value allowed
 * @param meaning what the number is, in words
 * @param hint what a value outside the range most often is; empty when nothing can be guessed
 */
public record NumberKey(
    String name, String unit, double min, double max, String meaning, String hint) {
  public NumberKey {
    if (!(min <= max)) {
      throw new IllegalArgumentException(name + ": range " + min + " to " + max + " is empty");
    }
  }

  /** Whether a value is in the range. */
  public boolean allows(double value) {
    return value >= min && value <= max;
  }

  /** The range with its unit, for example {@code 0.3 to 1}. */
  public String range() {
    return PlainNumber.of(min) + " to " + PlainNumber.of(max) + (unit.isEmpty() ? "" : " " + unit);
  }

  /** What is wrong with a value outside the range; what is allowed; what to do. */
  String complaint(double value) {
    return name
        + " = "
        + PlainNumber.of(value)
        + " is outside "
        + range()
        + "; it is "
        + meaning
        + "; "
        + (hint.isEmpty() ? "look whether the number belongs to another key or unit" : hint);
  }

  /** The value itself; fails on one outside the range, for records that hold it. */
  public double checked(double value) {
    if (!allows(value)) {
      throw new IllegalArgumentException(complaint(value));
    }
    return value;
  }

  /** The value itself or null; fails on one outside the range, for records that hold it. */
  public @Nullable Double checkedOptional(@Nullable Double value) {
    return value == null ? null : checked(value);
  }
}
