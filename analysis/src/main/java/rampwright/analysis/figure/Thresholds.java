package rampwright.analysis.figure;

/**
 * Thresholds of the findings; the defaults are those of the definitions.
 *
 * @param lateBreakawayS breakaway delay above which it is late, s (and ...)
 * @param lateBreakawayShare ... as a share of the start time
 * @param phaseMissingShare a phase under this share of the others is missing
 * @param oneWayDcShare d.c. part above this share of the phase's RMS is one-way conduction
 * @param unbalancePct current unbalance over the start, %
 * @param supplyDipPct fall of voltage, % of declared
 * @param gapIntervals a gap is longer than this many intervals
 * @param limitThroughoutShare the current limit acts for more than this share of the ramp
 */
public record Thresholds(
    double lateBreakawayS,
    double lateBreakawayShare,
    double phaseMissingShare,
    double oneWayDcShare,
    double unbalancePct,
    double supplyDipPct,
    double gapIntervals,
    double limitThroughoutShare) {

  /** The defaults of the definitions. */
  public static final Thresholds DEFAULT =
      new Thresholds(0.5, 0.15, 0.05, 0.10, 10.0, 5.0, 3.0, 0.9);
}
