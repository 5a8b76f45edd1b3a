package rampwright.analysis.machine;

/** How a starter stops a motor. */
public enum StopMode {
  SOFT("soft"),
  COAST("coast");

  private final String key;

  StopMode(String key) {
    this.key = key;
  }

  /** Word used in settings files. */
  public String key() {
    return key;
  }
}
