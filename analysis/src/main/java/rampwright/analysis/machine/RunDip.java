package rampwright.analysis.machine;

/**
 * How long the voltage of a simulated run is low: the longest stretch from below 90 % of declared
 * until it is at 92 %.
 *
 * <p>Source: IEC 61000-4-30, threshold and hysteresis as the figure of a trace has them.
 */
final class RunDip {
  private static final double BELOW = 0.90;
  private static final double BACK = 0.92;

  private RunDip() {}

  /**
   * Longest stretch, s; 0 when there is none, NaN when one has not ended with the run.
   *
   * @param worstDip dip of the worst line over the mean one
   * @param declaredPu declared voltage, per unit of the motor's rated one
   */
  static double longestS(Trajectory run, double worstDip, double declaredPu) {
    double source = run.sourceVoltagePu();
    double longest = 0;
    double since = Double.NaN;
    double before = source;
    for (int k = 0; k < run.size(); k++) {
      double now = source - worstDip * (source - run.measuredVoltagePu(k));
      if (Double.isNaN(since) && now < BELOW * declaredPu) {
        since = when(run, k, before, now, BELOW * declaredPu);
      } else if (!Double.isNaN(since) && now >= BACK * declaredPu) {
        longest = Math.max(longest, when(run, k, before, now, BACK * declaredPu) - since);
        since = Double.NaN;
      }
      before = now;
    }
    return Double.isNaN(since) ? longest : Double.NaN;
  }

  private static double when(Trajectory run, int k, double before, double now, double level) {
    if (k == 0 || before == now) {
      return run.timeS(k);
    }
    double part = Math.max(0, Math.min(1, (level - before) / (now - before)));
    return run.timeS(k - 1) + part * (run.timeS(k) - run.timeS(k - 1));
  }
}
