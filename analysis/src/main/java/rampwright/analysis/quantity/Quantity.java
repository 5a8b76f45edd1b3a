package rampwright.analysis.quantity;

/** What a channel measures, with the unit its values are held in throughout the program. */
public enum Quantity {
  CURRENT("A"),
  LINE_VOLTAGE("V"),
  PHASE_VOLTAGE("V"),
  /** Rotational frequency; rpm as in the trade, converted to rad/s inside formulas only. */
  SPEED("rpm"),
  TORQUE("N m"),
  POWER("W"),
  /** Run command: 0 or 1. */
  RUN(""),
  PRESSURE("bar");

  private final String unit;

  Quantity(String unit) {
    this.unit = unit;
  }

  /** Unit symbol; empty for the run command. */
  public String unit() {
    return unit;
  }
}
