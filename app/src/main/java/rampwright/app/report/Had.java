package rampwright.app.report;

import org.jspecify.annotations.Nullable;

/**
 * A part of the record, or the reason why it is not in it.
 *
 * @param value null where it could not be had
 * @param why why it could not be had; null where it could
 * @param fault whether that is a fault of a file rather than something not done yet
 */
public record Had<T>(@Nullable T value, @Nullable String why, boolean fault) {
  public Had {
    if ((value == null) == (why == null)) {
      throw new IllegalArgumentException("either a value or why there is none");
    }
  }

  /** A part that is there. */
  public static <T> Had<T> of(T value) {
    return new Had<>(value, null, false);
  }

  /** A part that is not there yet. */
  public static <T> Had<T> not(String why) {
    return new Had<>(null, why, false);
  }

  /** A part that a fault of a file kept out. */
  public static <T> Had<T> fault(String why) {
    return new Had<>(null, why, true);
  }

  /** Why it is missing; empty where it is there. */
  public String reason() {
    return why == null ? "" : why;
  }
}
