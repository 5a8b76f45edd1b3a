package rampwright.analysis.machine;

/** Shapes of load torque against speed. */
public enum LoadKind {
  QUADRATIC("quadratic"),
  CONSTANT("constant"),
  LINEAR("linear"),
  RECIPROCATING("reciprocating");

  private final String key;

  LoadKind(String key) {
    this.key = key;
  }

  /** Word used in asset files. */
  public String key() {
    return key;
  }
}
