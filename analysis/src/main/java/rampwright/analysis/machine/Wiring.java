package rampwright.analysis.machine;

/**
 * Where a starter sits and where its currents are measured. All currents of a model are per unit of
 * the rated current at the place where they are measured, so that a balanced motor at rated load
 * has 1 everywhere; only harmonics differ from place to place.
 *
 * <p>Inside a delta each pole leads the current of one winding between two lines. Harmonics whose
 * order is a multiple of three are in phase in the three windings: they circulate in the delta and
 * never reach the line. What is left for the line is little.
 */
public enum Wiring {
  /** In the supply line, currents of the line. */
  IN_LINE(1, false, false),
  /** In series with each winding of a delta, currents measured in the line. */
  DELTA_SEEN_IN_LINE(1, true, false),
  /** In series with each winding of a delta, currents measured in the windings. */
  DELTA_SEEN_INSIDE(1 / Math.sqrt(3), true, true);

  /**
   * Squared harmonics of the line current over its squared fundamental, of 1 - k^2: 0.006 to 0.018
   * for a standing winding (power factor 0.17 to 0.7) at k of 0.25 to 0.95, by the closed form of
   * one phase behind two thyristors.
   */
  private static final double DELTA_LINE_SHARE = 0.012;

  /**
   * Squared current that circulates in a delta, over what the line carries, at four tenths of full
   * voltage: h (1 - k)^2 less the line's harmonics. Starts held at twice rated current and more run
   * at no less.
   */
  private static final double UNSEEN_SHARE = 0.115;

  private final double measuredShare;
  private final boolean delta;
  private final boolean inside;

  Wiring(double measuredShare, boolean delta, boolean inside) {
    this.measuredShare = measuredShare;
    this.delta = delta;
    this.inside = inside;
  }

  /** Current measured over line current, fundamentals: 1, or 1/sqrt(3) in a winding. */
  public double measuredShare() {
    return measuredShare;
  }

  /**
   * Squared winding current that a measurement in the line does not show while the starter leads,
   * over what it shows; on the high side. 0 where currents are measured in what they warm.
   */
  public double unseenShare() {
    return delta && !inside ? UNSEEN_SHARE : 0;
  }

  /** Whether the current measured is that of a pole of the starter. */
  boolean measuresPole() {
    return !delta || inside;
  }

  /** Whether the starter sits inside a delta. */
  public boolean insideDelta() {
    return delta;
  }

  /**
   * RMS over fundamental of a pole's current.
   *
   * <p>In line sqrt(1 + h (1 - k^2)); inside a delta sqrt(1 + h (1 - k)^2), k the fundamental
   * voltage over full voltage, h a share. Inside a delta h is 0.25 to 0.48 for a standing winding
   * of a power factor of 0.17 to 0.5 and k of 0.3 to 0.95: the shape follows the closed form of the
   * current of a resistance and reactance behind two thyristors (Mohan, Undeland and Robbins, Power
   * Electronics, from memory).
   */
  double poleFactor(double k, double share) {
    if (share <= 0) {
      return 1;
    }
    double less = Math.max(0, 1 - k);
    return Math.sqrt(1 + share * less * (delta ? less : 1 + k));
  }

  /** The same of the current that is measured. */
  double measuredFactor(double k, double share) {
    if (!delta || inside) {
      return poleFactor(k, share);
    }
    return share <= 0 ? 1 : Math.sqrt(1 + DELTA_LINE_SHARE * Math.max(0, 1 - k * k));
  }
}
