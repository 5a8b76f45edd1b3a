package rampwright.analysis.figure;

import org.jspecify.annotations.Nullable;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.signal.Cycles;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;

/**
 * Where the gaps of a phase-controlled current end: the starter is at full voltage or by-passed.
 *
 * <p>In each half cycle the share of samples at zero (below 3 % of that half cycle's largest) is
 * taken; a full sine of 100 samples a cycle has below 3 %, a controlled current more. The by-pass
 * is the first half cycle after the last one that shows a gap in most phases, in the start's
 * window.
 */
final class Bypass {
  private static final double ZERO_SHARE = 0.03;
  private static final double GAP_SHARE = 0.06;
  private static final int LEAST_PER_HALF = 16;
  private static final int MOST_MISSES = 20;
  private static final int LEAST_HALVES = 4;
  // On waveforms of known order, of two plants, the gaps came back after 7 to 16 % of what is seen
  // of
  // the stop: a motor near its speed needs little voltage for its torque.
  private static final double ORDER_LAG = 0.1;

  private Bypass() {}

  static Measured find(Readings r, Segment segment) {
    Cycles cycles = r.cycles;
    if (!r.isWaveform() || cycles == null) {
      return Measured.missing("s", "RMS readings do not show the current's gaps");
    }
    String why = segment.whyNoBeginning();
    if (segment.run() == null || (why != null && !segment.begunInStart())) {
      return Measured.missing("s", why != null ? why : "no run was reached");
    }
    if (cycles.cycleS() / 2 / r.sampleS < LEAST_PER_HALF) {
      return Measured.missing("s", "too few samples a cycle to see the current's gaps");
    }
    double[] edge = cycles.boundaryS();
    double fromS = segment.flow().fromS();
    double toS = segment.runEndS();
    int lastGap = -1;
    for (int h = 0; h + 1 < edge.length; h++) {
      if (edge[h] >= fromS && edge[h + 1] <= toS && gapped(r, edge[h], edge[h + 1])) {
        lastGap = h;
      }
    }
    if (lastGap < 0) {
      return Measured.missing("s", "the current shows no gaps: full voltage from the beginning");
    }
    if (edge[lastGap + 1] > toS - 4 * cycles.cycleS()) {
      return Measured.missing("s", "the current's gaps do not end before the stop");
    }
    return StartInstants.instant(
        edge[lastGap + 1], cycles.cycleS() / 2 / Math.sqrt(3), "the current's gaps end");
  }

  /** A soft stop's beginning: gaps come back after a run without and stay to the end; else null. */
  static @Nullable StopBegin gapsReturn(Readings r, Flow flow, RunState run) {
    Cycles cycles = r.cycles;
    if (cycles == null || cycles.cycleS() / 2 / r.sampleS < LEAST_PER_HALF) {
      return null;
    }
    double[] edge = cycles.boundaryS();
    double fromS = r.t[run.first()];
    int last = edge.length - 2;
    while (last > 0 && edge[last + 1] > flow.toS() - cycles.cycleS()) {
      last--;
    }
    int h = last;
    int misses = 0;
    int first = -1;
    while (h >= 0 && edge[h] > fromS && misses < MOST_MISSES) {
      if (gapped(r, edge[h], edge[h + 1])) {
        first = h;
        misses = 0;
      } else {
        misses++;
      }
      h--;
    }
    // Gaps all the way from the start: the starter was never by-passed, gaps tell nothing.
    if (first < 0 || misses < MOST_MISSES || last - first < LEAST_HALVES) {
      return null;
    }
    // Narrow gaps are lost between two samples; the distortion they make shows first.
    double onsetS = DistortionOnset.before(r, cycles, fromS, edge[first]);
    double seenS = Math.min(flow.toS() - onsetS, StopBegin.LAG_SPREAD_TO_S);
    double orderedS = Math.max(fromS, onsetS - ORDER_LAG * seenS);
    double u = Math.hypot(cycles.cycleS() / 2 / Math.sqrt(3), StopBegin.ORDER_SHARE * seenS);
    return new StopBegin(
        orderedS,
        u,
        Findings.text(
            "the current's gaps come back, less %.2f s for the order to show", onsetS - orderedS));
  }

  private static boolean gapped(Readings r, double fromS, double toS) {
    int gapped = 0;
    for (int p = 0; p < r.phases.size(); p++) {
      Samples samples = r.trace.channel(r.phases.get(p));
      if (samples != null && gapShare(r.trace.time(), samples, fromS, toS) > GAP_SHARE) {
        gapped++;
      }
    }
    return 2 * gapped > r.phases.size();
  }

  private static double gapShare(TimeBase time, Samples samples, double fromS, double toS) {
    int from = time.firstAtOrAfter(fromS);
    int to = time.firstAtOrAfter(toS);
    double largest = 0;
    for (int i = from; i < to; i++) {
      double magnitude = Math.abs(samples.at(i));
      largest = magnitude > largest ? magnitude : largest;
    }
    int zero = 0;
    int run = 0;
    for (int i = from; i < to; i++) {
      double magnitude = Math.abs(samples.at(i));
      if (magnitude < ZERO_SHARE * largest) {
        run++;
        zero = Math.max(zero, run);
      } else if (!Double.isNaN(magnitude)) {
        // A sample that was not read neither makes a gap nor ends one.
        run = 0;
      }
    }
    return to > from ? (double) zero / (to - from) : 0;
  }
}
