package rampwright.analysis.machine;

/**
 * Pressure rise in the pipe behind a pump while it is stopped, from the flow of a simulated stop.
 *
 * <p>Formula: p = rho a max over t of (v(t) - v(t + 2L/a)). A wave that a change of velocity sends
 * out is back, turned over, after one pipe period; changes further apart than that relieve each
 * other. Symbols: rho density, 1000 kg/m3; a wave speed and L length of the {@link Pipe}; v flow
 * velocity, {@link Pipe#velocityMPerS} at the stop order and in proportion to the flow after it.
 *
 * <p>Valid: one pipe without branches, friction left out, rigid column for the flow, no column
 * separation; an estimate of the size of the swing, either way. A flow that falls evenly gives
 * {@link Pipe#risePa}; never above the Joukowsky rise.
 *
 * <p>Source: superposition of Joukowsky waves; for an even fall Michaud's rho L v 2 / t (Subramanya
 * 14.18). Checked by: SurgeReferenceTest.
 */
public final class Surge {
  private static final double PA_PER_BAR = 1e5;

  private Surge() {}

  /**
   * Pressure rise of the stop of a run, bar; NaN when the run has no stop or no flow.
   *
   * @param run a run of a model with a water column
   */
  public static double riseBar(Trajectory run, Pipe pipe) {
    double begin = run.instants().stopBeginS();
    if (Double.isNaN(begin)) {
      return Double.NaN;
    }
    int first = run.indexAt(begin);
    double running = run.flow(first);
    if (!(running > 0)) {
      return Double.NaN;
    }
    double period = pipe.periodS();
    double most = 0;
    int later = first;
    for (int k = first; k < run.size(); k++) {
      double until = run.timeS(k) + period;
      while (later < run.size() - 1 && run.timeS(later + 1) <= until) {
        later++;
      }
      most = Math.max(most, run.flow(k) - flowAt(run, later, until));
    }
    return Math.min(1, most / running) * pipe.joukowskyPa() / PA_PER_BAR;
  }

  /** Flow at a time at or after a point; past the end the last holds. */
  private static double flowAt(Trajectory run, int index, double timeS) {
    if (index >= run.size() - 1) {
      return run.flow(run.size() - 1);
    }
    double width = run.timeS(index + 1) - run.timeS(index);
    double part = width > 0 ? (timeS - run.timeS(index)) / width : 1;
    return run.flow(index) + part * (run.flow(index + 1) - run.flow(index));
  }
}
