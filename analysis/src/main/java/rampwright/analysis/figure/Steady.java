package rampwright.analysis.figure;

import org.jspecify.annotations.Nullable;
import rampwright.analysis.signal.Noise;

/**
 * The last stretch of a run in which nothing changes, before the stop or the record's end.
 *
 * @param from index of its first stamp
 * @param to index after its last stamp
 * @param levelA its current, highest phase
 * @param rippleA scatter of the current about a line through it
 * @param speedRpm its speed; the run's where the stretch holds no reading; NaN without a channel
 */
record Steady(int from, int to, double levelA, double rippleA, double speedRpm) {
  private static final double WINDOW_S = 0.8;
  private static final double FLAT_SHARE_OF_RATED = 0.02;
  // The hump of a soft stop has a flat top too, but well above the run ...
  private static final double MOST_ABOVE_LOWEST = 1.25;
  // ... and not for this long: a level this long and this flat is a change of load, not a stop.
  private static final double PLATEAU_S = 3.0;
  private static final double PLATEAU_SHARE_OF_RATED = 0.03;
  private static final double SAME_SHARE_OF_RATED = 0.05;
  private static final double BENT_SHARE_OF_RATED = 0.01;
  private static final double QUICK_S = 1.0;
  private static final double LASTS_TIMES = 3.0;
  private static final double PLATEAU_SPEED_SHARE = 0.003;
  // Scatter beyond this is no noise, and no reason to call a stretch flat.
  private static final double MOST_RIPPLE = 0.03;

  /** The last steady stretch; where there is none, the run's first stamp with its level. */
  static Steady last(Readings r, Flow flow, RunState run, Swing swing) {
    int length = Math.max(3, (int) Math.round(WINDOW_S / r.stepS));
    int hop = Math.max(1, length / 6);
    double rated = r.motor.ratedCurrentA() != null ? r.motor.ratedCurrentA() : run.levelA() / 0.8;
    Search search = new Search(r, run, swing, rated);
    Steady plateau = search.lastPlateau(flow, hop);
    double lowest = Double.POSITIVE_INFINITY;
    double speedRpm = plateau != null ? plateau.speedRpm : run.speedRpm();
    int from = plateau != null ? plateau.from : run.first();
    for (int k = from; plateau == null && k + length - 1 <= flow.last(); k += hop) {
      Steady one = search.at(k, length, speedRpm);
      if (one != null) {
        lowest = Math.min(lowest, one.levelA);
      }
    }
    // Beyond its own scatter another level is a departure from the plateau.
    double bandA = plateau != null ? Math.max(BENT_SHARE_OF_RATED * rated, 4 * plateau.rippleA) : 0;
    double mostA = plateau != null ? plateau.levelA + bandA : MOST_ABOVE_LOWEST * lowest;
    double leastA = plateau != null ? plateau.levelA - bandA : 0;
    Steady last = plateau;
    for (int k = from; k + length - 1 <= flow.last(); k += hop) {
      Steady one = search.at(k, length, speedRpm);
      if (one != null
          && one.levelA <= mostA
          && one.levelA >= leastA
          && (last == null || one.to > last.to)) {
        last = one;
      }
    }
    return last != null
        ? last
        : new Steady(run.first(), run.first(), run.levelA(), 0, run.speedRpm());
  }

  private Steady withRipple(double otherA) {
    return new Steady(from, to, levelA, otherA, speedRpm);
  }

  private record Search(Readings r, RunState run, Swing swing, double rated) {
    @Nullable Steady at(int k, int length, double speedRpm) {
      Steady one = flat(k, length, FLAT_SHARE_OF_RATED);
      for (int j = k; one != null && j < k + length; j++) {
        if (StopBegin.slowed(r, j, speedRpm)) {
          return null;
        }
      }
      return one;
    }

    /**
     * The last level stretch of three seconds.
     *
     * <p>Without speed the hump of a slow stop may be as flat: another level counts only when it
     * was reached within a second or lasts three times as long as its approach took.
     */
    @Nullable Steady lastPlateau(Flow flow, int hop) {
      int length = Math.max(4, (int) Math.round(PLATEAU_S / r.stepS));
      Steady accepted = null;
      Steady candidate = null;
      for (int k = run.first(); k + length - 1 <= flow.last(); k += hop) {
        Steady one = plateau(k, length);
        if (one == null) {
          continue;
        }
        if (accepted != null && isSame(one, accepted)) {
          // One that holds the stop's first readings scatters more than those before it.
          one = one.withRipple(Math.min(one.rippleA, accepted.rippleA));
        }
        boolean known = r.speed != null && !Double.isNaN(run.speedRpm());
        if (accepted == null || known || isSame(one, accepted)) {
          accepted = one;
          candidate = null;
          continue;
        }
        candidate = candidate != null && isSame(one, candidate) ? candidate : one;
        double approachS = r.t[candidate.from] - r.t[accepted.to - 1];
        double lastsS = r.t[one.to - 1] - r.t[candidate.from];
        if (approachS <= QUICK_S || lastsS >= LASTS_TIMES * approachS) {
          accepted = one;
          candidate = null;
        }
      }
      return accepted;
    }

    /** Whether the middle of a stretch lies off its ends: the top of a hump, or a beginning. */
    private boolean isBent(int k, int length, double ripple) {
      int third = length / 3;
      if (third < 2) {
        return false;
      }
      double[] current = swing.currentA;
      double ends =
          0.5 * (mean(current, k, k + third) + mean(current, k + length - third, k + length));
      double off = Math.abs(mean(current, k + third, k + length - third) - ends);
      double noise = Math.min(ripple, Noise.sigma(current, k, k + length));
      return off > Math.max(BENT_SHARE_OF_RATED * rated, 4 * noise / Math.sqrt(third));
    }

    private static double mean(double[] values, int from, int to) {
      double sum = 0;
      int n = 0;
      for (int k = from; k < to; k++) {
        if (!Double.isNaN(values[k])) {
          sum += values[k];
          n++;
        }
      }
      return n == 0 ? Double.NaN : sum / n;
    }

    private boolean isSame(Steady a, Steady b) {
      return Math.abs(a.levelA - b.levelA) <= SAME_SHARE_OF_RATED * rated;
    }

    private @Nullable Steady plateau(int k, int length) {
      Steady one = flat(k, length, PLATEAU_SHARE_OF_RATED);
      if (one == null || one.levelA > RunState.MOST_RUN_RATIO * rated) {
        return null;
      }
      SpeedTrack speed = r.speed;
      if (speed == null || Double.isNaN(run.speedRpm())) {
        return one;
      }
      int a = speed.firstAtOrAfter(r.t[k]);
      int b = speed.firstAtOrAfter(r.t[k + length - 1]);
      Line line = Line.through(speed.timeS(), speed.rpm(), a, b);
      double spanS = r.t[k + length - 1] - r.t[k];
      double noise = 2 * line.scatter() * Math.sqrt(12.0 / Math.max(3, b - a));
      boolean flatSpeed =
          Math.abs(line.slope()) * spanS < PLATEAU_SPEED_SHARE * run.speedRpm() + noise;
      return flatSpeed && line.middle() > RunState.LEAST_SPEED_SHARE * run.speedRpm() ? one : null;
    }

    private @Nullable Steady flat(int k, int length, double share) {
      double[] current = swing.currentA;
      Line line = Line.through(r.t, current, k, k + length);
      double level = Noise.median(current, k, k + length);
      double ripple = Math.min(line.scatter(), MOST_RIPPLE * level);
      double flat = Math.max(share * rated, 3 * ripple);
      double spanS = r.t[k + length - 1] - r.t[k];
      if (!(level > r.thresholdA) || !(Math.abs(line.slope()) * spanS < flat)) {
        return null;
      }
      for (int j = k; j < k + length; j++) {
        if (Math.abs(current[j] - level) > Math.max(2 * flat, 4 * ripple)) {
          return null;
        }
      }
      if (isBent(k, length, ripple)) {
        return null;
      }
      double rpm = Double.NaN;
      if (r.speed != null) {
        rpm = r.speed.mean(r.t[k], r.t[k + length - 1]);
      }
      return new Steady(k, k + length, level, ripple, !Double.isNaN(rpm) ? rpm : run.speedRpm());
    }
  }
}
