package rampwright.app.asset;

import rampwright.acquisition.toml.NumberKey;

/**
 * Range and resolution of a setting on the starter.
 *
 * @param min smallest value that can be entered, in the setting's unit
 * @param max largest value
 * @param step resolution; above 0
 */
public record SettingRange(double min, double max, double step) {
  static final NumberKey STEP =
      new NumberKey("step", "", 1e-6, 1000, "the resolution of the setting", "");

  public SettingRange {
    if (!(min <= max) || !(step > 0)) {
      throw new IllegalArgumentException(
          "setting range " + min + " to " + max + " by " + step + " is empty");
    }
  }

  /** Whether a value can be entered, its step aside. */
  public boolean holds(double value) {
    return value >= min && value <= max;
  }

  /** The value that can be entered nearest to a wanted one. */
  public double nearest(double wanted) {
    double steps = Math.round((Math.min(max, Math.max(min, wanted)) - min) / step);
    double value = min + steps * step;
    return Math.min(max, Math.round(value * 1e9) / 1e9);
  }
}
