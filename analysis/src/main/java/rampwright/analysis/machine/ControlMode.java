package rampwright.analysis.machine;

/** What a starter ramps. */
public enum ControlMode {
  TORQUE_RAMP("torque ramp"),
  VOLTAGE_RAMP("voltage ramp");

  private final String key;

  ControlMode(String key) {
    this.key = key;
  }

  /** Word used in settings files. */
  public String key() {
    return key;
  }
}
