package rampwright.analysis.figure;

import org.jspecify.annotations.Nullable;
import rampwright.analysis.signal.Noise;

/**
 * How long a meter of RMS readings averages, told from the readings themselves.
 *
 * <p>Current that is cut ceases at once; a meter that averages over T shows a tail instead, in
 * which the square of its readings falls along a straight line to zero. The line's length is T.
 * Whether a reading is stamped at the end of what it averaged over or at its middle no reading
 * tells: an instant dated by such an edge lies T/4 into it, give or take T/4. Without a tail T is
 * one cycle, the least an RMS can be taken over.
 *
 * @param spanS what the meter averages over, s
 * @param seen whether tails were seen; else it is the cycle
 */
record Averaging(double spanS, boolean seen) {
  private static final double ASSUMED_HZ = 50;
  // Beyond this no start could be told from its readings.
  private static final double LONGEST_S = 1.5;
  // The last reading of a tail is well below the one before.
  private static final double LAST_SHARE = 0.8 * 0.8;
  // Steps of a straight fall scatter about their mean by less than this.
  private static final double STRAIGHT = 0.55;
  // Stamps jitter: a span of an interval may look a little longer than one.
  private static final double SLOW = 1.2;
  private static final int LEVEL_READINGS = 3;
  private static final double LEVEL_SHARE = 0.96;
  private static final double MOST_BEFORE = 0.35;

  /**
   * The tail in which current ceases.
   *
   * @param lastWhole index of the last reading that holds nothing of the cut
   * @param fromS where the square leaves its level
   * @param spanS how long it takes to zero: what the meter averages over
   */
  record Tail(int lastWhole, double fromS, double spanS) {}

  /** The averaging of a record from the spans of its tails, or a cycle where none was seen. */
  static Averaging of(double[] spansS, int n, @Nullable Double ratedFrequencyHz) {
    if (n > 0) {
      return new Averaging(Noise.median(spansS, 0, n), true);
    }
    double hz = ratedFrequencyHz != null && ratedFrequencyHz > 0 ? ratedFrequencyHz : ASSUMED_HZ;
    return new Averaging(1 / hz, false);
  }

  /** Where an edge that begins at {@code fromS} is dated, and what that leaves open: both T/4. */
  double quarterS() {
    return spanS / 4;
  }

  /** Whether it is well above the interval between readings. */
  boolean isSlow(double stepS) {
    return seen && spanS > SLOW * stepS;
  }

  /** "; ..." for a rule; empty where nothing was seen. */
  String said() {
    return seen
        ? Findings.text("; the meter averages over %.2g s, by its tail where current ceases", spanS)
        : "";
  }

  /**
   * The tail that ends at a reading.
   *
   * @param t stamps, s
   * @param square sum of the squares of the phases
   * @param first index of the flow's first reading
   * @param last index of its last
   * @return null when the current ceases within two readings
   */
  static @Nullable Tail tail(double[] t, double[] square, int first, int last) {
    if (last - first < 2 * LEVEL_READINGS || !(square[last] < LAST_SHARE * square[last - 1])) {
      return null;
    }
    int k = last - 1;
    double mean = (square[k] - square[last]) / (t[last] - t[k]);
    int n = 1;
    while (k - 1 > first && t[last] - t[k - 1] < LONGEST_S) {
      double next = (square[k - 1] - square[k]) / (t[k] - t[k - 1]);
      if (!(next > STRAIGHT * mean && next < mean / STRAIGHT)) {
        break;
      }
      mean += (next - mean) / ++n;
      k--;
    }
    // The reading at k may be the line's first or the level's last.
    double level = Noise.median(square, Math.max(first, k - LEVEL_READINGS), k);
    int begin = square[k] < LEVEL_SHARE * level ? k : k + 1;
    int before = begin - 1 - LEVEL_READINGS;
    if (before <= first || !(level > 0)) {
      return null;
    }
    if (begin == last) {
      // One reading that averaged over the cut: a cycle's average may do that too.
      return null;
    }
    // A current that was on its way down already tells nothing of the meter.
    double down = (square[before] - square[begin - 1]) / (t[begin - 1] - t[before]);
    Line line = Line.through(t, square, begin, last + 1);
    if (!(line.slope() < 0) || down > MOST_BEFORE * -line.slope()) {
      return null;
    }
    double fromS = Math.max(t[begin - 1], Math.min(t[begin], line.reachesS(level)));
    double toS = Math.max(t[last], line.reachesS(0));
    return new Tail(begin - 1, fromS, toS - fromS);
  }
}
