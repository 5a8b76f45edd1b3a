package rampwright.analysis.heat;

/**
 * The overload relay, set to the motor's rated current, along pieces of current: the highest level
 * any relay of the class may have, and the lowest.
 *
 * <p>Formula: the thermal equation. The highest warms with the fast edge's time constant and cools
 * with the slow edge's; the lowest the other way round. A relay's cooling is not in the standard:
 * it is taken to be as slow as its warming (common practice, no source).
 */
public final class RelayModel {
  private final double fastS;
  private final double slowS;

  /** The relay of a class. */
  public RelayModel(TripClass tripClass) {
    this.fastS = tripClass.fastTimeConstantS();
    this.slowS = tripClass.slowTimeConstantS();
  }

  /** Highest level after a piece. */
  public double highest(double from, HeatPiece piece) {
    double target = target(piece);
    return ThermalEquation.level(from, target, piece.lastsS(), target > from ? fastS : slowS);
  }

  /** Lowest level after a piece. */
  public double lowest(double from, HeatPiece piece) {
    double target = target(piece);
    return ThermalEquation.level(from, target, piece.lastsS(), target > from ? slowS : fastS);
  }

  /** Level after long running at rated current. */
  public static double runLevel() {
    return 1 / (TripClass.CARRIED * TripClass.CARRIED);
  }

  /** Time constant with which the slowest relay cools, s. */
  public double coolingS() {
    return slowS;
  }

  private static double target(HeatPiece piece) {
    return piece.square() / (TripClass.CARRIED * TripClass.CARRIED);
  }
}
