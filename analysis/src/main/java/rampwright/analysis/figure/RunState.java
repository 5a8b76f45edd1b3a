package rampwright.analysis.figure;

import org.jspecify.annotations.Nullable;
import rampwright.analysis.signal.Noise;

/**
 * The run a start led to.
 *
 * @param first index of the first stamp of the track that belongs to the run
 * @param levelA its current (highest phase), A
 * @param speedRpm its speed; NaN without a speed channel
 */
record RunState(int first, double levelA, double speedRpm) {
  // A motor that runs is near its rated speed: 0.85 lies below any rated slip, above any stall.
  private static final double LEAST_SPEED_SHARE = 0.85;
  private static final double STEADY_SPEED_SHARE = 0.02;
  private static final double WINDOW_S = 0.5;
  // A motor's run current is at most its service-factor overload; a limited start lies above.
  private static final double MOST_RUN_RATIO = 1.35;
  private static final double FALL_OF_RATED = 0.8;
  private static final double FALL_UNRATED = 0.65;

  /** The run in a flow; null when it shows none. */
  static @Nullable RunState find(Readings r, Flow flow) {
    int lengthK = Math.max(3, (int) Math.round(WINDOW_S / r.stepS));
    if (flow.last() - flow.first() + 1 < lengthK + 2) {
      return null;
    }
    return r.speed != null && spans(r.speed, flow)
        ? bySpeed(r, r.speed, flow, lengthK)
        : byCurrent(r, flow, lengthK);
  }

  private static boolean spans(SpeedTrack speed, Flow flow) {
    int n = speed.firstAtOrAfter(flow.toS()) - speed.firstAtOrAfter(flow.fromS());
    return n >= 5;
  }

  private static @Nullable RunState bySpeed(Readings r, SpeedTrack speed, Flow flow, int lengthK) {
    int a = speed.firstAtOrAfter(flow.fromS());
    int b = speed.firstAtOrAfter(flow.toS());
    double[] sorted = java.util.Arrays.copyOfRange(speed.rpm(), a, b);
    java.util.Arrays.sort(sorted);
    double top = sorted[(int) Math.floor(0.98 * (sorted.length - 1))];
    if (!(top > speed.floorRpm())) {
      return null;
    }
    Double rated = r.motor.ratedSpeedRpm();
    if (rated != null && top < LEAST_SPEED_SHARE * rated) {
      return null;
    }
    // The first window in which the speed stays at its top.
    double band = Math.max(STEADY_SPEED_SHARE * top, 4 * speed.noiseRpm());
    int k = flow.first();
    int held = 0;
    for (; k <= flow.last(); k++) {
      double n = speed.at(r.t[k]);
      if (Double.isNaN(n)) {
        continue;
      }
      held = Math.abs(n - top) <= band ? held + 1 : 0;
      if (held >= lengthK) {
        break;
      }
    }
    if (held < lengthK) {
      return null;
    }
    int first = k - lengthK + 1;
    double level = lowestLevel(r, flow, first, lengthK);
    if (Double.isNaN(level)) {
      return null;
    }
    if (rated == null && !fell(r, flow, first, level)) {
      return null;
    }
    return new RunState(firstAt(r, flow, first, level), level, top);
  }

  private static boolean fell(Readings r, Flow flow, int upTo, double level) {
    double peak = peak(r, flow.first(), upTo);
    return level < FALL_UNRATED * peak;
  }

  private static @Nullable RunState byCurrent(Readings r, Flow flow, int lengthK) {
    Double rated = r.motor.ratedCurrentA();
    if (flow.openStart()) {
      double level = Noise.median(r.high, flow.first(), flow.first() + lengthK);
      boolean plausible = rated == null || level < MOST_RUN_RATIO * rated;
      return plausible ? new RunState(flow.first(), level, Double.NaN) : null;
    }
    int peakK = flow.first();
    for (int k = flow.first(); k <= flow.last(); k++) {
      if (r.high[k] > r.high[peakK]) {
        peakK = k;
      }
    }
    // In a soft stop the current may rise above the start's: look for the fall from either peak.
    int from = startPeak(r, flow, peakK, lengthK);
    double level = lowestLevel(r, flow, from, lengthK);
    if (Double.isNaN(level)) {
      return null;
    }
    double peak = peak(r, flow.first(), from);
    boolean fell =
        rated != null
            ? level < MOST_RUN_RATIO * rated && level < FALL_OF_RATED * peak
            : level < FALL_UNRATED * peak;
    return fell ? new RunState(firstAt(r, flow, from, level), level, Double.NaN) : null;
  }

  /** Index of the start's own peak: the first stretch from which the current fell lastingly. */
  private static int startPeak(Readings r, Flow flow, int peakK, int lengthK) {
    int best = flow.first();
    double highest = r.high[best];
    for (int k = flow.first(); k <= flow.last(); k++) {
      if (r.high[k] > highest) {
        highest = r.high[k];
        best = k;
      } else if (r.high[k] < 0.5 * highest && k - best > lengthK) {
        return best;
      }
    }
    return peakK;
  }

  private static double peak(Readings r, int from, int to) {
    double peak = 0;
    for (int k = from; k <= to && k < r.high.length; k++) {
      if (r.high[k] > peak) {
        peak = r.high[k];
      }
    }
    return peak;
  }

  /** The lowest median over a window whose slope is small, from an index on. */
  private static double lowestLevel(Readings r, Flow flow, int from, int lengthK) {
    double lowest = Double.NaN;
    int hop = Math.max(1, lengthK / 4);
    for (int k = from; k + lengthK - 1 <= flow.last(); k += hop) {
      Line line = Line.through(r.t, r.high, k, k + lengthK);
      double level = Noise.median(r.high, k, k + lengthK);
      double fallInWindow = Math.abs(line.slope()) * WINDOW_S;
      if (fallInWindow < 0.10 * level && !(lowest <= level)) {
        lowest = level;
      }
    }
    return lowest;
  }

  /**
   * First index from {@code from} on where the current is within a tenth of its way to the level.
   */
  private static int firstAt(Readings r, Flow flow, int from, double level) {
    Double rated = r.motor.ratedCurrentA();
    double band = rated != null ? 0.1 * rated : 0.1 * level;
    for (int k = from; k <= flow.last(); k++) {
      if (r.high[k] <= level + band) {
        return k;
      }
    }
    return from;
  }
}
