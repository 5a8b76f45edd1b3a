package rampwright.analysis.figure;

/**
 * Where a start's current first came to stay at the run's: what follows, a jam or another load, is
 * no part of the start.
 *
 * @param currentA the highest phase, a swing of the load averaged out
 * @param first index of the flow's first stamp
 * @param end index by which the current has arrived
 * @param peakA largest current up to there
 * @param runA the current it came to: Irun, or where the load changed later, its level after the
 *     start
 * @param loadChanged whether it is not Irun
 */
@SuppressWarnings("ArrayRecordComponent")
record Arrival(
    double[] currentA, int first, int end, double peakA, double runA, boolean loadChanged) {
  private static final double STAYS_S = 1.0;

  /** The share of the way from run to peak below which the current has arrived. */
  static final double ARRIVED = 0.1;

  /** The arrival of a segment that reached a run. */
  static Arrival of(Readings r, Segment segment, RunState run, RunLevel level) {
    Double settled = level.currentA().value();
    boolean changed = settled != null && !run.isSameLoad(settled);
    double runA = settled != null && !changed ? settled : run.levelA();
    double[] current = segment.swing().currentA;
    int first = segment.flow().first();
    int last = Math.min(r.t.length, r.firstAtOrAfter(segment.runEndS())) - 1;
    double peakA = peak(r, first, Math.min(last, run.first()));
    int end = last;
    double limit = runA + ARRIVED * (peakA - runA);
    int start = -1;
    for (int k = run.first(); k <= last; k++) {
      if (current[k] > limit) {
        start = -1;
        continue;
      }
      start = start < 0 ? k : start;
      if (r.t[k] - r.t[start] >= STAYS_S) {
        end = k;
        break;
      }
    }
    return new Arrival(current, first, end, peak(r, first, end), runA, changed);
  }

  private static double peak(Readings r, int from, int to) {
    double peak = 0;
    for (int k = from; k <= to; k++) {
      peak = r.high[k] > peak ? r.high[k] : peak;
    }
    return peak;
  }

  /** The current a share of the way from the run up to the peak. */
  double atShare(double share) {
    return runA + share * (peakA - runA);
  }

  /** When the current last falls through a level before it has arrived; NaN when it does not. */
  double lastFallS(double[] timeS, double levelA) {
    int k = lastAbove(levelA);
    if (k < 0) {
      return Double.NaN;
    }
    double next = currentA[k + 1];
    double share = next < currentA[k] ? (currentA[k] - levelA) / (currentA[k] - next) : 1;
    return timeS[k] + Math.max(0, Math.min(1, share)) * (timeS[k + 1] - timeS[k]);
  }

  /** Last index above a level before the arrival; -1 when there is none. */
  int lastAbove(double levelA) {
    for (int k = end - 1; k >= first; k--) {
      if (currentA[k] > levelA) {
        return k;
      }
    }
    return -1;
  }
}
