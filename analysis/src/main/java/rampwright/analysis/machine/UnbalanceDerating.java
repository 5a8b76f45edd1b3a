package rampwright.analysis.machine;

/**
 * How much of its rating a motor keeps on unbalanced voltage.
 *
 * <p>Formula: straight lines between 0 and 1 %: 1.00, 2 %: 0.95, 3 %: 0.88, 4 %: 0.82, 5 %: 0.75;
 * unbalance = largest deviation from the mean of the line voltages over the mean. Above 5 % a motor
 * should not run: 0.75 is given and means no allowance. The hottest phase warms by about twice the
 * squared percentage, %.
 *
 * <p>Source: NEMA MG 1, 14.36 and its figure (points from memory; read off the curve within 0.015).
 * Checked by: PlateRulesReferenceTest.
 */
public final class UnbalanceDerating {
  /** Above this a motor should not be run, %. */
  public static final double LARGEST_PCT = 5;

  private static final double[] FACTOR = {1.00, 1.00, 0.95, 0.88, 0.82, 0.75};

  private UnbalanceDerating() {}

  /** Share of rated power left at an unbalance, %. */
  public static double factor(double unbalancePct) {
    if (!(unbalancePct >= 0)) {
      throw new IllegalArgumentException("unbalance of " + unbalancePct + " %");
    }
    if (unbalancePct >= LARGEST_PCT) {
      return FACTOR[FACTOR.length - 1];
    }
    int k = (int) unbalancePct;
    return FACTOR[k] + (unbalancePct - k) * (FACTOR[k + 1] - FACTOR[k]);
  }

  /** Further temperature rise of the hottest phase, %. */
  public static double furtherRisePct(double unbalancePct) {
    return 2 * unbalancePct * unbalancePct;
  }
}
