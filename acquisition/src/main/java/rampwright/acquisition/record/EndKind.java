package rampwright.acquisition.record;

/** What ends a trial, besides its longest time and a person. */
public enum EndKind {
  /** Current has ceased and the shaft is at rest, so that start and stop are in one trial. */
  STOPPED("stopped"),
  /** The motor runs steadily. */
  SETTLED("settled");

  private final String key;

  EndKind(String key) {
    this.key = key;
  }

  /** Word on the command line and in files. */
  public String key() {
    return key;
  }
}
