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
  IN_LINE(false, false),
  /** In series with each winding of a delta, currents measured in the line. */
  DELTA_SEEN_IN_LINE(true, false),
  /** In series with each winding of a delta, currents measured in the windings. */
  DELTA_SEEN_INSIDE(true, true);

  /**
   * Squared harmonics of the line current over its squared fundamental, of 1 - k^2: 0.006 to 0.018
   * for a standing winding (power factor 0.17 to 0.7) at k of 0.25 to 0.95, by the closed form of
   * one phase behind two thyristors.
   */
  private static final double DELTA_LINE_SHARE = 0.012;

  /** Share h of {@link #poleFactor} inside a delta, of a standing winding. */
  public static final double USUAL_DELTA_SHARE = 0.58;

  private static final double WINDING_SHARE = 1 / Math.sqrt(3);

  private static final int PASSES = 4;

  private final boolean delta;
  private final boolean inside;

  Wiring(boolean delta, boolean inside) {
    this.delta = delta;
    this.inside = inside;
  }

  /** Current measured over line current, fundamentals: 1, or 1/sqrt(3) in a winding. */
  public double measuredShare() {
    return inside ? WINDING_SHARE : 1;
  }

  /**
   * Squared winding current that a measurement in the line does not show while the starter leads,
   * over what it shows; 0 where currents are measured in what they warm.
   *
   * <p>Formula: squares of {@link #poleFactor} over those of {@link #measuredFactor} at the voltage
   * that drives the current through a standing motor. From a quarter of the locked-rotor current on
   * it is 0.01 too small to 0.03 too large for power factors of 0.17 to 0.5, by the closed form; a
   * turning motor takes more voltage for its current, and less circulates.
   *
   * @param currentRatio RMS current measured, of the rated one there
   * @param lockedRatio locked-rotor current at full voltage, of rated
   */
  public double unseenShare(double currentRatio, double lockedRatio) {
    if (measuresPole()) {
      return 0;
    }
    double k = Math.min(1, currentRatio / lockedRatio);
    double more = poleFactor(k, USUAL_DELTA_SHARE) / measuredFactor(k, USUAL_DELTA_SHARE);
    return more * more - 1;
  }

  /**
   * RMS current measured while a standing motor's poles carry a current, of rated each: what a
   * current limit, which acts on the poles, looks like where currents are measured.
   *
   * @param poleRatio RMS current in a pole, of the rated one there
   * @param lockedRatio locked-rotor current at full voltage, of rated
   */
  public double measuredRatio(double poleRatio, double lockedRatio) {
    double seen = poleRatio;
    for (int pass = 0; pass < PASSES; pass++) {
      seen = poleRatio / Math.sqrt(1 + unseenShare(seen, lockedRatio));
    }
    return seen;
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
   * <p>In line sqrt(1 + h (1 - k^2)); inside a delta sqrt(1 + h (1 - k)^2.5), k the fundamental
   * voltage over full voltage, h a share. Inside a delta 0.58 is within 1.6 % for a standing
   * winding of a power factor of 0.17 to 0.5 from k = 0.2 on: the shape follows the closed form of
   * the current of a resistance and reactance behind two thyristors (Mohan, Undeland and Robbins,
   * Power Electronics, from memory).
   */
  double poleFactor(double k, double share) {
    if (share <= 0) {
      return 1;
    }
    double less = Math.max(0, 1 - k);
    return Math.sqrt(1 + share * less * (delta ? less * Math.sqrt(less) : 1 + k));
  }

  /** The same of the current that is measured. */
  double measuredFactor(double k, double share) {
    if (measuresPole()) {
      return poleFactor(k, share);
    }
    return share <= 0 ? 1 : Math.sqrt(1 + DELTA_LINE_SHARE * Math.max(0, 1 - k * k));
  }
}
