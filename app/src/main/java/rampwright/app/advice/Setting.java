package rampwright.app.advice;

import java.util.Locale;
import rampwright.analysis.machine.StarterSettings;

/** The numeric settings of a starter, by the keys used in files. */
public enum Setting {
  CURRENT_LIMIT("current_limit_ratio", "x In", 1.5, 7.0, 0.05),
  RAMP_UP("ramp_up_s", "s", 0.5, 60, 0.1),
  INITIAL_TORQUE("initial_torque_pct", "%", 0, 100, 1),
  INITIAL_VOLTAGE("initial_voltage_pct", "%", 15, 80, 1),
  PULSE_VOLTAGE("pulse_voltage_pct", "%", 0, 100, 1),
  PULSE("pulse_s", "s", 0, 2, 0.1),
  RELEASE_TORQUE("release_torque_pct", "%", 0, 60, 1),
  RAMP_DOWN("ramp_down_s", "s", 0.5, 60, 0.1);

  private final String key;
  private final String unit;
  private final double usualMin;
  private final double usualMax;
  private final double usualStep;

  Setting(String key, String unit, double min, double max, double step) {
    this.key = key;
    this.unit = unit;
    this.usualMin = min;
    this.usualMax = max;
    this.usualStep = step;
  }

  /** Key used in files. */
  public String key() {
    return key;
  }

  /** Unit for people. */
  public String unit() {
    return unit;
  }

  /** Whether it shapes the stop and not the start. */
  public boolean ofStop() {
    return this == RELEASE_TORQUE || this == RAMP_DOWN;
  }

  /** Range taken when the asset does not give one. */
  public SettingRange usual() {
    return new SettingRange(usualMin, usualMax, usualStep);
  }

  /** The number as a person would enter it. */
  public String show(double value) {
    String text = String.format(Locale.ROOT, "%.2f", value);
    return text.replaceAll("0+$", "").replaceAll("\\.$", "") + " " + unit;
  }

  /** Value in a set of settings. */
  public double of(StarterSettings s) {
    return switch (this) {
      case CURRENT_LIMIT -> s.currentLimitRatio();
      case RAMP_UP -> s.rampUpS();
      case INITIAL_TORQUE -> s.initialTorquePct();
      case INITIAL_VOLTAGE -> s.initialVoltagePct();
      case PULSE_VOLTAGE -> s.pulseVoltagePct();
      case PULSE -> s.pulseS();
      case RELEASE_TORQUE -> s.releaseTorquePct();
      case RAMP_DOWN -> s.rampDownS();
    };
  }

  /** The settings with this one changed. */
  public StarterSettings in(StarterSettings s, double value) {
    return new StarterSettings(
        this == CURRENT_LIMIT ? value : s.currentLimitRatio(),
        s.control(),
        this == RAMP_UP ? value : s.rampUpS(),
        this == INITIAL_TORQUE ? value : s.initialTorquePct(),
        this == INITIAL_VOLTAGE ? value : s.initialVoltagePct(),
        this == PULSE_VOLTAGE ? value : s.pulseVoltagePct(),
        this == PULSE ? value : s.pulseS(),
        s.stop(),
        this == RELEASE_TORQUE ? value : s.releaseTorquePct(),
        this == RAMP_DOWN ? value : s.rampDownS());
  }
}
