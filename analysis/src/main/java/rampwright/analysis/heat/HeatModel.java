package rampwright.analysis.heat;

/**
 * A motor's two thermal bodies, moved along pieces of current.
 *
 * <p>Formula, stator: dL/dt = (T - L) / tau, T = (g I / k)^2. Rotor (the locked-rotor budget),
 * running: dL/dt = (r (g I)^2 - L) / tau; at large slip: dL/dt = (g I)^2 / (c^2 t) - L / tau.
 * Standing: dL/dt = -L / tau. Symbols: I current over rated; g gain of the reading; k overload
 * factor; r level after long running at rated load, 1 - hot / cold locked-rotor time; c
 * locked-rotor over rated current; t cold locked-rotor time; tau time constant, running or
 * standing.
 *
 * <p>The cautious model reads the current high and takes of each time constant the end that gives
 * the higher level: the short one while a body warms towards its target, the long one while it
 * cools. Its slope is the largest of all slopes the spreads allow, so its level is above every
 * course within them (comparison of first-order equations; HeatModelTest tries ten thousand).
 *
 * <p>Valid: slip losses counted with the locked-rotor resistance throughout a start, which is more
 * than a rotor has near full speed: on the safe side. No heat flows between rotor and stator.
 *
 * <p>Source: IEC 60255-149 (from memory) for the form; the locked-rotor budget with its hot level
 * is common practice, no source. Derivation: analysis/docs/heat.md.
 */
public final class HeatModel {
  /** Twice the class 1 of a meter: about 95 % of meters read no lower. */
  private static final double CAUTIOUS_GAIN = 1.02;

  private final MotorHeat motor;
  private final boolean cautious;
  private final double gainSquare;

  private HeatModel(MotorHeat motor, boolean cautious) {
    this.motor = motor;
    this.cautious = cautious;
    this.gainSquare = cautious ? CAUTIOUS_GAIN * CAUTIOUS_GAIN : 1;
  }

  /** The model with everything as stated. */
  public static HeatModel stated(MotorHeat motor) {
    return new HeatModel(motor, false);
  }

  /** The model that is never below any motor the spreads allow. */
  public static HeatModel cautious(MotorHeat motor) {
    return new HeatModel(motor, true);
  }

  /** Levels after long running at a square of the current over rated. */
  public Levels running(double square) {
    return new Levels(
        motor.runLevel() * gainSquare * square, motor.statorRunLevel() * gainSquare * square);
  }

  /** Levels after a piece. */
  public Levels after(Levels from, HeatPiece piece) {
    return switch (piece.state()) {
      case REST -> rested(from, piece.lastsS());
      case RUN ->
          new Levels(
              towards(
                  from.rotor(),
                  motor.runLevel() * gainSquare * piece.rotorSquare(),
                  piece.lastsS()),
              stator(from, piece));
      case SLIP ->
          new Levels(
              ThermalEquation.level(
                  from.rotor(),
                  rotorRate(piece) * slowS(motor.heatingS()),
                  piece.lastsS(),
                  slowS(motor.heatingS())),
              stator(from, piece));
    };
  }

  /** Levels after standing for a time. */
  public Levels rested(Levels from, double timeS) {
    double left = Math.exp(-timeS / standingS());
    return new Levels(from.rotor() * left, from.stator() * left);
  }

  /** Time constant of cooling at standstill, s. */
  public double standingS() {
    return slowS(motor.coolingS());
  }

  /** Share of the locked-rotor budget a piece at large slip takes, nothing given off meanwhile. */
  public double rotorAdded(HeatPiece piece) {
    return piece.state() == HeatPiece.State.SLIP ? rotorRate(piece) * piece.lastsS() : 0;
  }

  /** Share of the stator's limit a piece takes, nothing given off meanwhile. */
  public double statorAdded(HeatPiece piece) {
    return statorTarget(piece) * piece.lastsS() / fastS(motor.heatingS());
  }

  private double rotorRate(HeatPiece piece) {
    return gainSquare
        * piece.rotorSquare()
        / (motor.lockedRatio() * motor.lockedRatio() * motor.lockedColdS());
  }

  private double statorTarget(HeatPiece piece) {
    return motor.statorRunLevel() * gainSquare * piece.square();
  }

  private double stator(Levels from, HeatPiece piece) {
    return towards(from.stator(), statorTarget(piece), piece.lastsS());
  }

  private double towards(double from, double target, double timeS) {
    double tau = target > from ? fastS(motor.heatingS()) : slowS(motor.heatingS());
    return ThermalEquation.level(from, target, timeS, tau);
  }

  private double slowS(Spread timeConstant) {
    return cautious ? timeConstant.high() : timeConstant.stated();
  }

  private double fastS(Spread timeConstant) {
    return cautious ? timeConstant.low() : timeConstant.stated();
  }
}
