package rampwright.analysis.machine;

/**
 * How long a simulated run goes on.
 *
 * @param stopAfterStartS stop order this long after current inception, s; NaN when it is counted
 *     from full speed
 * @param stopAfterFullSpeedS stop order this long after full speed and by-pass, s
 * @param giveUpAfterS a start that has not reached full speed by then is cut, s
 * @param simulateStop whether the stop is wanted
 * @param restLimitS a stop is followed for at most this long, s
 */
public record RunPlan(
    double stopAfterStartS,
    double stopAfterFullSpeedS,
    double giveUpAfterS,
    boolean simulateStop,
    double restLimitS) {

  /** Start, a few seconds of run, stop. */
  public static RunPlan startAndStop(double giveUpAfterS, double runS) {
    return new RunPlan(Double.NaN, runS, giveUpAfterS, true, 200);
  }

  /** Start and a second of run only. */
  public static RunPlan startOnly(double giveUpAfterS) {
    return new RunPlan(Double.NaN, 1.0, giveUpAfterS, false, 0);
  }
}
