package rampwright.analysis.figure;

/** How a stop went. */
public enum StopKind {
  SOFT("soft"),
  COAST("coast"),
  CUT_OFF("cut off");

  private final String key;

  StopKind(String key) {
    this.key = key;
  }

  /** Word used on screens and in JSON. */
  public String key() {
    return key;
  }
}
