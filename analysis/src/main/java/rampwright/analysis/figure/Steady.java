package rampwright.analysis.figure;

import rampwright.analysis.signal.Noise;

/**
 * The last stretch of a run in which nothing changes, before the stop or the record's end.
 *
 * @param from index of its first stamp
 * @param to index after its last stamp
 * @param levelA its current, highest phase
 * @param rippleA scatter of the current about a line through it
 */
record Steady(int from, int to, double levelA, double rippleA) {
  private static final double WINDOW_S = 0.8;
  private static final double FLAT_SHARE_OF_RATED = 0.02;
  // The hump of a soft stop has a flat top too, but well above the run.
  private static final double MOST_ABOVE_LOWEST = 1.25;
  // A reciprocating machine's current swings by a few percent.
  private static final double MOST_RIPPLE = 0.03;

  /** The last steady stretch; where there is none, the run's first stamp with its level. */
  static Steady last(Readings r, Flow flow, RunState run) {
    int length = Math.max(3, (int) Math.round(WINDOW_S / r.stepS));
    int hop = Math.max(1, length / 6);
    double rated = r.motor.ratedCurrentA() != null ? r.motor.ratedCurrentA() : run.levelA() / 0.8;
    double lowest = Double.POSITIVE_INFINITY;
    for (int k = run.first(); k + length - 1 <= flow.last(); k += hop) {
      Steady one = at(r, k, length, rated, run);
      if (one != null) {
        lowest = Math.min(lowest, one.levelA);
      }
    }
    Steady last = null;
    for (int k = run.first(); k + length - 1 <= flow.last(); k += hop) {
      Steady one = at(r, k, length, rated, run);
      if (one != null && one.levelA <= MOST_ABOVE_LOWEST * lowest) {
        last = one;
      }
    }
    return last != null ? last : new Steady(run.first(), run.first(), run.levelA(), 0);
  }

  private static @org.jspecify.annotations.Nullable Steady at(
      Readings r, int k, int length, double rated, RunState run) {
    Line line = Line.through(r.t, r.high, k, k + length);
    double level = Noise.median(r.high, k, k + length);
    double ripple = Math.min(line.scatter(), MOST_RIPPLE * level);
    double flat = Math.max(FLAT_SHARE_OF_RATED * rated, 3 * ripple);
    if (!(Math.abs(line.slope()) * WINDOW_S < flat)) {
      return null;
    }
    for (int j = k; j < k + length; j++) {
      if (Math.abs(r.high[j] - level) > Math.max(2 * flat, 4 * ripple)
          || StopBegin.slowed(r, j, run)) {
        return null;
      }
    }
    return new Steady(k, k + length, level, ripple);
  }
}
