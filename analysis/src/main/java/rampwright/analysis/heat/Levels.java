package rampwright.analysis.heat;

/**
 * How warm a motor is.
 *
 * @param rotor share of the locked-rotor budget in use: 0 cold, 1 at the limit
 * @param stator share of the winding's lasting limit in use
 */
public record Levels(double rotor, double stator) {
  /** At ambient temperature. */
  public static final Levels COLD = new Levels(0, 0);
}
