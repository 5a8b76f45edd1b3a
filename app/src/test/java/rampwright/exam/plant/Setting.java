package rampwright.exam.plant;

/** One number that can be turned on the starter: its key in the settings file, range and step. */
public enum Setting {
  INITIAL_TORQUE("initial_torque_pct", 0, 100, 1),
  INITIAL_VOLTAGE("initial_voltage_pct", 15, 80, 1),
  RAMP_UP("ramp_up_s", 0.5, 60, 0.1),
  CURRENT_LIMIT("current_limit_ratio", 1.5, 7.0, 0.05),
  PULSE_VOLTAGE("pulse_voltage_pct", 0, 100, 1),
  PULSE("pulse_s", 0, 2.0, 0.1),
  RAMP_DOWN("ramp_down_s", 0.5, 60, 0.1),
  RELEASE_TORQUE("release_torque_pct", 0, 60, 1);

  private final String key;
  private final double min;
  private final double max;
  private final double step;

  Setting(String key, double min, double max, double step) {
    this.key = key;
    this.min = min;
    this.max = max;
    this.step = step;
  }

  public String key() {
    return key;
  }

  public double min() {
    return min;
  }

  public double max() {
    return max;
  }

  public double step() {
    return step;
  }

  /** The value nearest to {@code wanted} that can be entered. */
  public double enterable(double wanted) {
    double inside = Math.min(max, Math.max(min, wanted));
    double perUnit = Math.rint(1 / step);
    return step < 1
        ? Math.rint(inside * perUnit) / perUnit
        : Math.min(max, Math.rint(inside / step) * step);
  }
}
