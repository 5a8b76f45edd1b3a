package rampwright.analysis.figure;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.signal.Noise;

/**
 * The run a start led to.
 *
 * @param first index of the first stamp of the track that belongs to the run
 * @param levelA its current (highest phase) where it began, A; the load may change later
 * @param speedRpm its highest speed; NaN without a speed channel
 */
record RunState(int first, double levelA, double speedRpm) {
  // A motor that runs is near its rated speed: 0.85 lies below any rated slip, above any stall.
  static final double LEAST_SPEED_SHARE = 0.85;
  // A motor's run current is at most its service-factor overload; a limited start lies above.
  static final double MOST_RUN_RATIO = 1.35;
  private static final double STEADY_SPEED_SHARE = 0.02;
  // In bands of the steady speed: how far an overshoot may lie above the run, and from where it
  // counts.
  private static final double OVERSHOOT_BANDS = 2;
  private static final double OVERSHOOT_LEAST = 0.4;
  private static final double WINDOW_S = 0.5;
  private static final double FALL_OF_RATED = 0.8;
  private static final double FALL_UNRATED = 0.65;
  // A ramp after a breakaway pulse passes through run-like currents, but not this slowly.
  private static final double[] ARRIVAL_S = {2.0, 1.0};
  private static final double ARRIVAL_CHANGE_A_SECOND = 0.03;
  private static final double ARRIVAL_BAND = 0.1;
  // A run current settles and drifts by less than this; beyond it the load has changed.
  private static final double SAME_LOAD_SHARE = 0.75;

  /** The run in a flow; null when it shows none. */
  static @Nullable RunState find(Readings r, Flow flow, Swing swing) {
    int lengthK = Math.max(3, (int) Math.round(WINDOW_S / r.stepS));
    if (flow.last() - flow.first() + 1 < lengthK + 2) {
      return null;
    }
    if (r.speed != null && spans(r.speed, flow)) {
      return bySpeed(r, r.speed, flow, swing, lengthK);
    }
    RunState run = byCurrent(r, flow, swing, lengthK);
    return run != null && PhaseLoss.before(r, flow, run.first) ? null : run;
  }

  private static boolean spans(SpeedTrack speed, Flow flow) {
    int n = speed.firstAtOrAfter(flow.toS()) - speed.firstAtOrAfter(flow.fromS());
    return n >= 5;
  }

  private static @Nullable RunState bySpeed(
      Readings r, SpeedTrack speed, Flow flow, Swing swing, int lengthK) {
    int a = speed.firstAtOrAfter(flow.fromS());
    int b = speed.firstAtOrAfter(flow.toS());
    double[] sorted = Arrays.copyOfRange(speed.rpm(), a, b);
    Arrays.sort(sorted);
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
    int first = firstHeld(r, speed, flow, top, band, lengthK);
    if (first < 0) {
      // A shaft that hunts swings above the speed it then keeps.
      top = highestKept(r, speed, flow, top, band, lengthK);
      if (rated == null || !(top >= LEAST_SPEED_SHARE * rated)) {
        return null;
      }
      first = firstHeld(r, speed, flow, top, band, lengthK);
    }
    if (first < 0) {
      return null;
    }
    double[] current = swing.currentA;
    Level arrival = arrival(r, flow, current, first, false);
    if (arrival == null) {
      double level = lowestLevel(r, flow, current, first, lengthK);
      if (Double.isNaN(level)) {
        return null;
      }
      arrival = new Level(firstAt(r, flow, current, first, level), level);
    } else {
      arrival = settling(r, flow, current, arrival, lengthK);
    }
    if (stillLimited(r, flow, first, arrival.levelA())) {
      return null;
    }
    if (rated == null && !fell(r, flow, first, arrival.levelA())) {
      return null;
    }
    return new RunState(
        arrival.at(), arrival.levelA(), settledRpm(speed, r.t[first], b, top, band));
  }

  /** Where the speed first stays within a band of a level for a window; -1 where it never does. */
  private static int firstHeld(
      Readings r, SpeedTrack speed, Flow flow, double level, double band, int lengthK) {
    int held = 0;
    for (int k = flow.first(); k <= flow.last(); k++) {
      double n = speed.at(r.t[k]);
      if (Double.isNaN(n)) {
        continue;
      }
      held = Math.abs(n - level) <= band ? held + 1 : 0;
      if (held >= lengthK) {
        return k - lengthK + 1;
      }
    }
    return -1;
  }

  /**
   * The highest mean speed of windows that stay within a band, of those after the top was first
   * reached; NaN where none does.
   */
  private static double highestKept(
      Readings r, SpeedTrack speed, Flow flow, double top, double band, int lengthK) {
    double highest = Double.NaN;
    int hop = Math.max(1, lengthK / 4);
    int from = flow.first();
    while (from <= flow.last() && !(speed.at(r.t[from]) >= top)) {
      from++;
    }
    for (int k = from; k + lengthK - 1 <= flow.last(); k += hop) {
      double mean = speed.mean(r.t[k], r.t[k + lengthK - 1]);
      boolean kept = !Double.isNaN(mean) && !(mean <= highest);
      for (int j = k; kept && j < k + lengthK; j++) {
        // Not a number is a reading that is not there.
        kept = !(Math.abs(speed.at(r.t[j]) - mean) > band);
      }
      highest = kept ? mean : highest;
    }
    return highest;
  }

  /**
   * The speed the run keeps: its top, or where the shaft overshot it on arrival the median of what
   * it kept near it.
   */
  private static double settledRpm(
      SpeedTrack speed, double fromS, int end, double top, double bandRpm) {
    int from = speed.firstAtOrAfter(fromS);
    double[] near = new double[Math.max(0, end - from)];
    int n = 0;
    for (int k = from; k < end; k++) {
      if (Math.abs(speed.rpm()[k] - top) <= OVERSHOOT_BANDS * bandRpm) {
        near[n++] = speed.rpm()[k];
      }
    }
    double kept = Noise.median(near, 0, n);
    return top - kept > OVERSHOOT_LEAST * bandRpm ? kept : top;
  }

  /**
   * A shaft that nears its speed by so little a second that it seems to stand: the current tells,
   * for no motor runs near its start's current and above what it may carry.
   */
  private static boolean stillLimited(Readings r, Flow flow, int upTo, double level) {
    Double rated = r.motor.ratedCurrentA();
    return rated != null
        && !flow.openStart()
        && level > MOST_RUN_RATIO * rated
        && level > FALL_OF_RATED * peak(r, flow.first(), upTo);
  }

  private static boolean fell(Readings r, Flow flow, int upTo, double level) {
    double peak = peak(r, flow.first(), upTo);
    return level < FALL_UNRATED * peak;
  }

  private static @Nullable RunState byCurrent(Readings r, Flow flow, Swing swing, int lengthK) {
    double[] current = swing.currentA;
    if (flow.openStart() && beginsInRun(r, flow, current, lengthK)) {
      double level = Noise.median(current, flow.first(), flow.first() + lengthK);
      return new RunState(flow.first(), level, Double.NaN);
    }
    Level arrival = arrival(r, flow, current, flow.first(), true);
    if (arrival != null) {
      arrival = settling(r, flow, current, arrival, lengthK);
      return new RunState(arrival.at(), arrival.levelA(), Double.NaN);
    }
    int peakK = flow.first();
    for (int k = flow.first(); k <= flow.last(); k++) {
      if (r.high[k] > r.high[peakK]) {
        peakK = k;
      }
    }
    // In a soft stop the current may rise above the start's: look for the fall from either peak.
    int from = startPeak(r, flow, peakK, lengthK);
    double level = lowestLevel(r, flow, current, from, lengthK);
    return !Double.isNaN(level) && isRun(r, level, peak(r, flow.first(), from))
        ? new RunState(firstAt(r, flow, current, from, level), level, Double.NaN)
        : null;
  }

  private static boolean isRun(Readings r, double level, double peak) {
    Double rated = r.motor.ratedCurrentA();
    return rated != null
        ? level < MOST_RUN_RATIO * rated && level < FALL_OF_RATED * peak
        : level < FALL_UNRATED * peak;
  }

  /**
   * Whether a record that begins with current begins in the run: at a run's current that does not
   * fall to a much lower one afterwards.
   */
  private static boolean beginsInRun(Readings r, Flow flow, double[] current, int lengthK) {
    Double rated = r.motor.ratedCurrentA();
    double level = Noise.median(current, flow.first(), flow.first() + lengthK);
    if (rated != null) {
      return level < MOST_RUN_RATIO * rated;
    }
    return arrival(r, flow, current, flow.first(), true) == null;
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

  /** Where the current first comes to stay within a tenth of In of a level, and the level. */
  private record Level(int at, double levelA) {}

  /**
   * The first stretch from {@code from} on that stays level; null when there is none.
   *
   * @param fallen whether it must lie well below the current before it
   */
  private static @Nullable Level arrival(
      Readings r, Flow flow, double[] current, int from, boolean fallen) {
    for (double lengthS : ARRIVAL_S) {
      int length = Math.max(4, (int) Math.round(lengthS / r.stepS));
      double peak = 0;
      for (int k = from; k + length - 1 <= flow.last(); k++) {
        peak = r.high[k] > peak ? r.high[k] : peak;
        if (current[k] > r.thresholdA
            && (!fallen || isRun(r, current[k], peak))
            && isLevel(r, current, k, k + length)) {
          double level = Noise.median(current, k, k + length);
          int at = k;
          while (at > from
              && current[at - 1] > r.thresholdA
              && current[at - 1] <= level + band(r, level)) {
            at--;
          }
          return new Level(at, level);
        }
      }
    }
    return null;
  }

  /** The current may still settle after its arrival: the lowest level later, unless far below. */
  private static Level settling(
      Readings r, Flow flow, double[] current, Level arrival, int lengthK) {
    double lowest = lowestLevel(r, flow, current, arrival.at(), lengthK);
    return lowest < arrival.levelA() && lowest > SAME_LOAD_SHARE * arrival.levelA()
        ? new Level(arrival.at(), lowest)
        : arrival;
  }

  /** Whether a current is of the load the run began with. */
  boolean isSameLoad(double currentA) {
    return currentA > SAME_LOAD_SHARE * levelA && currentA * SAME_LOAD_SHARE < levelA;
  }

  private static boolean isLevel(Readings r, double[] current, int from, int to) {
    double level = Noise.median(current, from, to);
    double band = ARRIVAL_BAND * level;
    for (int k = from; k < to; k++) {
      if (Math.abs(current[k] - level) > band) {
        return false;
      }
    }
    return Math.abs(Line.through(r.t, current, from, to).slope()) < ARRIVAL_CHANGE_A_SECOND * level;
  }

  /** The lowest median over a window whose slope is small, from an index on. */
  private static double lowestLevel(
      Readings r, Flow flow, double[] current, int from, int lengthK) {
    double lowest = Double.NaN;
    int hop = Math.max(1, lengthK / 4);
    for (int k = from; k + lengthK - 1 <= flow.last(); k += hop) {
      Line line = Line.through(r.t, current, k, k + lengthK);
      double level = Noise.median(current, k, k + lengthK);
      double fallInWindow = Math.abs(line.slope()) * WINDOW_S;
      if (level > r.thresholdA && fallInWindow < 0.10 * level && !(lowest <= level)) {
        lowest = level;
      }
    }
    return lowest;
  }

  /**
   * First index from {@code from} on where the current is within a tenth of its way to the level.
   */
  private static int firstAt(Readings r, Flow flow, double[] current, int from, double level) {
    for (int k = from; k <= flow.last(); k++) {
      if (current[k] <= level + band(r, level) && current[k] > r.thresholdA) {
        return k;
      }
    }
    return from;
  }

  private static double band(Readings r, double level) {
    Double rated = r.motor.ratedCurrentA();
    return rated != null ? 0.1 * rated : 0.1 * level;
  }
}
