package rampwright.app.envelope;

import org.jspecify.annotations.Nullable;

/**
 * What a figure may be.
 *
 * @param figure which figure
 * @param min smallest value allowed, in the figure's unit; null for no lower limit
 * @param max largest value allowed; null for no upper limit
 */
public record Limit(FigureKey figure, @Nullable Double min, @Nullable Double max) {
  public Limit {
    if (min == null && max == null) {
      throw new IllegalArgumentException(figure.key() + ": a limit has min, max or both");
    }
    if (min != null && max != null && min > max) {
      throw new IllegalArgumentException(figure.key() + ": min " + min + " is above max " + max);
    }
  }

  /** Whether a value is within; the limits themselves are. */
  public boolean allows(double value) {
    return (min == null || value >= min) && (max == null || value <= max);
  }

  /**
   * How far a value is inside (positive) or outside (negative).
   *
   * <p>Formula: the smaller of 100 (max - value) / |max| and 100 (value - min) / |min|, percent. A
   * side whose limit is 0 has no percentage and is left out; null when no side is left.
   */
  public @Nullable Double marginPct(double value) {
    Double margin = null;
    if (max != null && max != 0) {
      margin = 100 * (max - value) / Math.abs(max);
    }
    if (min != null && min != 0) {
      double below = 100 * (value - min) / Math.abs(min);
      margin = margin == null ? below : Math.min(margin, below);
    }
    return margin;
  }
}
