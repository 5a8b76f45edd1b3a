package rampwright.acquisition.record;

/** What begins a trial. */
public enum TriggerKind {
  CURRENT("current"),
  SPEED("speed"),
  RUN("run"),
  NOW("now");

  private final String key;

  TriggerKind(String key) {
    this.key = key;
  }

  /** Word on the command line and in files. */
  public String key() {
    return key;
  }
}
