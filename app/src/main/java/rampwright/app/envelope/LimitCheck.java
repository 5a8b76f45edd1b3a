package rampwright.app.envelope;

import org.jspecify.annotations.Nullable;

/**
 * One figure held against its limit.
 *
 * @param limit what was asked
 * @param value the figure's value; null when it could not be had
 * @param uncertainty the figure's standard uncertainty; null where it cannot be told
 * @param met whether the value is within; null when there is none
 * @param marginPct see {@link Limit#marginPct}; null when there is no value or no percentage
 * @param why why it could not be assessed; null when it could
 */
public record LimitCheck(
    Limit limit,
    @Nullable Double value,
    @Nullable Double uncertainty,
    @Nullable Boolean met,
    @Nullable Double marginPct,
    @Nullable String why) {

  /** Whether the value lies nearer to a limit than its standard uncertainty, on either side. */
  public boolean isClose() {
    if (value == null || uncertainty == null) {
      return false;
    }
    Double min = limit.min();
    Double max = limit.max();
    return (min != null && Math.abs(value - min) < uncertainty)
        || (max != null && Math.abs(value - max) < uncertainty);
  }
}
