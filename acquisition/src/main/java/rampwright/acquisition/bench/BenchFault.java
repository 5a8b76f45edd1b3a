package rampwright.acquisition.bench;

/** What can be wrong with an answer, on demand. */
public enum BenchFault {
  /** Nothing. */
  NONE("none"),
  /** No answer. */
  DROP("drop"),
  /** An answer long after meters have given up. */
  SLOW("slow"),
  /** Exception code 4, server device failure. */
  EXCEPTION("exception"),
  /** Bytes that mean nothing. */
  GARBAGE("garbage");

  private final String key;

  BenchFault(String key) {
    this.key = key;
  }

  /** Word used on the command line. */
  public String key() {
    return key;
  }
}
