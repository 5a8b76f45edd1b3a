package rampwright.app.chart;

import java.util.Locale;
import java.util.Map;

/** Words for keys. */
final class Wording {
  private static final Map<String, String> FIGURES =
      Map.ofEntries(
          Map.entry("i2t_A2s", "I²t"),
          Map.entry("i2t_ratio_s", "I²t"),
          Map.entry("stop_i2t_ratio_s", "stop I²t"),
          Map.entry("rms_current_A", "RMS current"),
          Map.entry("rms_current_ratio", "RMS current"),
          Map.entry("voltage_min_V", "lowest voltage"),
          Map.entry("voltage_before_V", "voltage before start"),
          Map.entry("thd_pct", "harmonic distortion"),
          Map.entry("dc_component_pct", "d.c. component"),
          Map.entry("start_drop_pct", "start's own drop"),
          Map.entry("stop_90_10_s", "90 % to 10 % speed"),
          Map.entry("air_gap_torque_Nm", "air-gap torque"),
          Map.entry("motor_heat_cold_pct", "motor heat, cold"),
          Map.entry("motor_heat_hot_pct", "motor heat, hot"));

  private Wording() {}

  /** Word for an instant: {@code full_speed_s} is "full speed". */
  static String instant(String key) {
    return plain(key.endsWith("_s") ? key.substring(0, key.length() - 2) : key);
  }

  /** Words for a figure: {@code start_time_s} is "start time". */
  static String figure(String key) {
    String known = FIGURES.get(key);
    if (known != null) {
      return known;
    }
    for (String unit :
        new String[] {
          "_pct_per_s",
          "_ratio",
          "_pct",
          "_bar",
          "_var",
          "_A2s",
          "_Nm",
          "_A",
          "_V",
          "_W",
          "_J",
          "_VA",
          "_s"
        }) {
      if (key.endsWith(unit)) {
        return plain(key.substring(0, key.length() - unit.length()));
      }
    }
    return plain(key);
  }

  /** Unit as shown: ratios to rated current say so. */
  static String unit(String key, String unit) {
    if (key.endsWith("current_ratio")) {
      return "× In";
    }
    if (key.endsWith("i2t_ratio_s")) {
      return "In² s";
    }
    return unit;
  }

  private static String plain(String key) {
    return key.replace('_', ' ').toLowerCase(Locale.ROOT);
  }
}
