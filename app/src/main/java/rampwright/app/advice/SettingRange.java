package rampwright.app.advice;

import java.util.Locale;

/**
 * What a starter lets one enter.
 *
 * @param min smallest value
 * @param max largest value
 * @param step distance between values, counted from {@code min}; 0 = any
 */
public record SettingRange(double min, double max, double step) {
  public SettingRange {
    if (!(min <= max) || !(step >= 0)) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT,
              "setting range: min %s, max %s, step %s; min may not be above max, step not negative",
              min,
              max,
              step));
    }
  }

  /** The nearest value that can be entered. */
  public double nearest(double value) {
    double inside = Math.min(max, Math.max(min, value));
    if (step <= 0) {
      return inside;
    }
    double steps = Math.rint((inside - min) / step);
    double snapped = min + steps * step;
    if (snapped > max + 1e-9) {
      snapped = min + Math.floor((max - min) / step + 1e-9) * step;
    }
    // Decimal steps leave binary dust; no setting has more than six decimals.
    return Math.rint(snapped * 1e6) / 1e6;
  }
}
