package rampwright.analysis.heat;

/**
 * A stretch of time over which the current counts as constant.
 *
 * @param lastsS its length, s
 * @param state what the motor does
 * @param square mean square of the highest phase over rated current squared; heats stator, starter
 *     and relay
 * @param rotorSquare the same with the weight of the negative sequence in the rotor
 */
public record HeatPiece(double lastsS, State state, double square, double rotorSquare) {
  /** What a motor does. */
  public enum State {
    /** No current. */
    REST("rest"),
    /** Near full speed. */
    RUN("run"),
    /** Current at large slip: starting, stalled, or in a soft stop. */
    SLIP("slip");

    private final String key;

    State(String key) {
      this.key = key;
    }

    /** Word used in files. */
    public String key() {
      return key;
    }
  }

  public HeatPiece {
    if (!(lastsS >= 0 && square >= 0 && rotorSquare >= 0)
        || !Double.isFinite(lastsS + square + rotorSquare)) {
      throw new IllegalArgumentException(
          "piece of "
              + lastsS
              + " s with squares "
              + square
              + " and "
              + rotorSquare
              + "; none may be negative or endless");
    }
  }

  /** Rest of a length. */
  static HeatPiece rest(double lastsS) {
    return new HeatPiece(lastsS, State.REST, 0, 0);
  }

  /** Running of a length. */
  static HeatPiece run(double lastsS, double square) {
    return new HeatPiece(lastsS, State.RUN, square, square);
  }
}
