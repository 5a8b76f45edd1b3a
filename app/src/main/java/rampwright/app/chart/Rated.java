package rampwright.app.chart;

import org.jspecify.annotations.Nullable;

/**
 * Nameplate numbers that scale a chart; null where unknown.
 *
 * @param currentA motor rated current In, A RMS
 * @param speedRpm motor rated speed, rpm
 * @param supplyV declared supply voltage, line to line, V RMS
 */
public record Rated(
    @Nullable Double currentA, @Nullable Double speedRpm, @Nullable Double supplyV) {
  /** Nothing is known. */
  public static final Rated UNKNOWN = new Rated(null, null, null);

  public Rated {
    currentA = positiveOrNull(currentA);
    speedRpm = positiveOrNull(speedRpm);
    supplyV = positiveOrNull(supplyV);
  }

  private static @Nullable Double positiveOrNull(@Nullable Double value) {
    return value != null && value > 0 && Double.isFinite(value) ? value : null;
  }
}
