package rampwright.app.advice;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.StopMode;

/** A starter's settings as people read them. */
public final class SettingWords {
  private SettingWords() {}

  /** All that count, on one line. */
  public static String line(StarterSettings s) {
    return order(s).stream()
        .map(
            key ->
                key.equals("control")
                    ? value(s, key)
                    : key.equals("stop")
                        ? value(s, key) + " stop"
                        : label(key) + " " + value(s, key))
        .collect(Collectors.joining(", "));
  }

  /** What counts for the chosen control and stop, in the order of the file. */
  public static List<String> order(StarterSettings s) {
    boolean torque = s.control() == ControlMode.TORQUE_RAMP;
    ArrayList<String> keys =
        new ArrayList<>(
            List.of(
                "control",
                Setting.CURRENT_LIMIT.key(),
                Setting.RAMP_UP.key(),
                torque ? Setting.INITIAL_TORQUE.key() : Setting.INITIAL_VOLTAGE.key()));
    if (s.hasPulse()) {
      keys.add(Setting.PULSE_VOLTAGE.key());
      keys.add(Setting.PULSE.key());
    }
    keys.add("stop");
    if (s.stop() == StopMode.SOFT) {
      keys.add(Setting.RAMP_DOWN.key());
      keys.add(Setting.RELEASE_TORQUE.key());
    }
    return keys;
  }

  /** A setting as a person would enter it. */
  public static String value(StarterSettings s, String key) {
    if (key.equals("control")) {
      return s.control() == ControlMode.TORQUE_RAMP ? "torque ramp" : "voltage ramp";
    }
    if (key.equals("stop")) {
      return s.stop() == StopMode.SOFT ? "soft" : "coast";
    }
    for (Setting setting : Setting.values()) {
      if (setting.key().equals(key)) {
        return setting.show(setting.of(s));
      }
    }
    return "";
  }

  /** Name of a setting on a page. */
  public static String label(String key) {
    return switch (key) {
      case "current_limit_ratio" -> "current limit";
      case "ramp_up_s" -> "ramp-up time";
      case "initial_torque_pct" -> "initial torque";
      case "initial_voltage_pct" -> "initial voltage";
      case "pulse_voltage_pct" -> "pulse voltage";
      case "pulse_s" -> "pulse time";
      case "release_torque_pct" -> "release torque";
      case "ramp_down_s" -> "ramp-down time";
      default -> key;
    };
  }
}
