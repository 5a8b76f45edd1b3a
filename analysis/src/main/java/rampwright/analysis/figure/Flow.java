package rampwright.analysis.figure;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.TimeBase;

/**
 * A stretch in which current flows.
 *
 * @param first index of the first flowing stamp of the track
 * @param last index of the last flowing stamp
 * @param lastWhole index of the last stamp that holds nothing of current ceasing
 * @param fromS inception; the record's start when it flows there already
 * @param fromUncertaintyS standard uncertainty of {@code fromS}
 * @param toS instant current ceases; the record's end when it still flows there
 * @param toUncertaintyS standard uncertainty of {@code toS}
 * @param openStart the record begins with current flowing
 * @param openEnd the record ends with current flowing
 */
record Flow(
    int first,
    int last,
    int lastWhole,
    double fromS,
    double fromUncertaintyS,
    double toS,
    double toUncertaintyS,
    boolean openStart,
    boolean openEnd) {

  // From this share of the interval on an average reaches over the reading before.
  private static final double LONG_AVERAGE = 0.8;
  // A current no longer than the meter's average is not dated to its end.
  private static final double BEGIN_SHARE = 0.25;
  // Of an interval, however little of it the first reading holds.
  private static final double LEAST_WIDTH = 0.2;
  private static final double PART_SHARE = 0.7;
  private static final double REST_CYCLES = 10;
  private static final double FEW_SAMPLES = 40;
  private static final double SQRT6 = Math.sqrt(6);

  /** All flows of a trace in time order. */
  static List<Flow> find(Readings r) {
    List<Flow> flows = new ArrayList<>();
    SampleFloor floor = SampleFloor.of(r);
    for (Edges edges : edges(r)) {
      flows.add(dated(r, floor, edges));
    }
    return flows;
  }

  /** First and last flowing stamp, and whether current flows to the record's end. */
  private record Edges(int first, int last, boolean stillFlowing) {}

  private static List<Edges> edges(Readings r) {
    List<Edges> flows = new ArrayList<>();
    int n = r.t.length;
    int k = 0;
    while (k < n) {
      int first = nextRun(r, k, true);
      if (first < 0) {
        break;
      }
      int off = nextRun(r, first, false);
      int last = (off < 0 ? n : off) - 1;
      while (last > first && !(r.high[last] > r.thresholdA)) {
        last--;
      }
      flows.add(new Edges(first, last, off < 0));
      k = off < 0 ? n : off;
    }
    return flows;
  }

  /** First index from {@code from} where the state holds for as long as a change must last. */
  private static int nextRun(Readings r, int from, boolean flowing) {
    int held = 0;
    int start = -1;
    for (int k = from; k < r.t.length; k++) {
      double value = r.high[k];
      if (Double.isNaN(value)) {
        continue;
      }
      if (value > r.thresholdA == flowing) {
        if (held == 0) {
          start = k;
        }
        held++;
        if (held >= r.lasting()) {
          return start;
        }
      } else {
        held = 0;
      }
    }
    return -1;
  }

  /** What the meter of a trace averages over. */
  static Averaging averaging(Readings r) {
    double[] spansS = new double[r.isWaveform() ? 0 : r.t.length];
    int n = 0;
    if (!r.isWaveform()) {
      for (Edges edges : edges(r)) {
        Averaging.Tail tail = edges.stillFlowing ? null : tail(r, edges.first, edges.last);
        if (tail != null) {
          spansS[n++] = tail.spanS();
        }
      }
    }
    return Averaging.of(spansS, n, r.motor.ratedFrequencyHz());
  }

  private static Averaging.@Nullable Tail tail(Readings r, int first, int last) {
    double[] square = new double[last + 1];
    for (double[] phase : r.current) {
      for (int k = first; k <= last; k++) {
        square[k] += phase[k] * phase[k];
      }
    }
    return Averaging.tail(r.t, square, first, last);
  }

  private static Flow dated(Readings r, SampleFloor floor, Edges edges) {
    int first = edges.first;
    int last = edges.last;
    boolean stillFlowing = edges.stillFlowing;
    if (r.isWaveform()) {
      return datedFromSamples(r, floor, first, last, stillFlowing);
    }
    int before = first - 1;
    while (before >= 0 && Double.isNaN(r.high[before])) {
      before--;
    }
    // The running median of three keeps an edge where it is, but a lone pair may hide one reading.
    int after = last + 1;
    while (after < r.t.length && Double.isNaN(r.high[after])) {
      after++;
    }
    boolean openStart = before < 0;
    boolean openEnd = stillFlowing || after >= r.t.length;
    double fromS = r.t[first];
    double fromU = 0;
    if (!openStart) {
      // Right for a meter that reads an instant, and for one that averages back to its last
      // reading: there the first reading that shows current holds the step. One far below the next
      // holds little of it, whether it averaged or the current was only just rising.
      double intervalS = r.t[first] - r.t[before];
      double share = Math.min(0.5, shareOf(r, first, first + 1));
      fromS = r.t[first] - share * intervalS;
      fromU = Math.hypot(Accuracy.ofWidth(intervalS * Math.max(LEAST_WIDTH, 2 * share)), r.jitterS);
      double spanS = r.averaging.spanS();
      if (spanS > LONG_AVERAGE * r.stepS) {
        // One that averages about its stamp shows current half its span early.
        double longestS = BEGIN_SHARE * (r.t[last] - r.t[first]);
        fromS = Math.min(fromS + r.averaging.quarterS(), Math.max(fromS, r.t[first] + longestS));
        fromU = Math.hypot(fromU, r.averaging.quarterS());
      } else {
        fromU = Math.hypot(fromU, 0.5 * spanS / Math.sqrt(2));
      }
    }
    double toS = r.t[last];
    double toU = 0;
    Averaging.Tail tail = openEnd ? null : tail(r, first, last);
    int lastWhole = last;
    if (tail != null) {
      lastWhole = tail.lastWhole();
      toS = tail.fromS() + tail.spanS() / 4;
      toU = Math.hypot(tail.spanS() / 4, Math.hypot(Accuracy.ofWidth(r.stepS), r.jitterS));
    } else if (!openEnd) {
      // Of a meter that reads an instant the current ceases between its last and the next reading,
      // of one that averages back up to half an interval before the last, of one that averages
      // about its stamp between these. A quarter of an interval after the last reading is off by
      // three quarters at most. What is left is the sum of two rectangles an interval wide each
      // (when the current ceased, what the meter saw of it): a triangle.
      double intervalS = r.t[after] - r.t[last];
      toS = isPart(r, last, last - 1) ? r.t[last] : r.t[last] + intervalS / 4;
      toU = Math.hypot(intervalS / SQRT6, r.jitterS);
    }
    if (tail == null) {
      while (lastWhole > first && r.t[lastWhole] > toS) {
        lastWhole--;
      }
      lastWhole = openEnd ? lastWhole : Math.max(first, lastWhole - 1);
    }
    return new Flow(first, last, lastWhole, fromS, fromU, toS, toU, openStart, openEnd);
  }

  /** A reading well below its neighbour: it averaged over the step itself. */
  private static boolean isPart(Readings r, int edge, int inner) {
    return inner >= 0 && inner < r.t.length && shareOf(r, edge, inner) < PART_SHARE;
  }

  /** A reading over its neighbour's, sums over the phases; 1 where the neighbour shows nothing. */
  private static double shareOf(Readings r, int edge, int inner) {
    if (inner >= r.t.length) {
      return 1;
    }
    double sum = 0;
    double next = 0;
    for (double[] phase : r.current) {
      sum += !Double.isNaN(phase[edge]) ? phase[edge] : 0;
      next += !Double.isNaN(phase[inner]) ? phase[inner] : 0;
    }
    return next > 0 ? sum / next : 1;
  }

  private static Flow datedFromSamples(
      Readings r, SampleFloor floor, int first, int last, boolean stillFlowing) {
    double cycleS = 2 * r.stepS;
    double recordStartS = r.startS();
    // The first flowing window may have caught the current's beginning anywhere in its cycle.
    int before = first;
    while (before > 0 && Double.isNaN(r.high[before - 1])) {
      before--;
    }
    double searchFromS = r.t[before] - 2.5 * cycleS;
    boolean openStart = first == 0 || searchFromS < recordStartS;
    double fromS = recordStartS;
    double fromU = 0;
    if (!openStart || r.t[first] - cycleS > recordStartS + cycleS) {
      double fromSearchS = Math.max(recordStartS, searchFromS);
      SampleFloor atRest =
          floor.atRest(r, fromSearchS - REST_CYCLES * cycleS, fromSearchS - 0.5 * cycleS);
      int found = firstFlowing(r, atRest, fromSearchS, r.t[first] + cycleS);
      double riseS = 0;
      if (found >= 0) {
        TimeBase time = r.trace.time();
        // Current rises from zero: it began where its rise leads back to, or just after the sample
        // before.
        riseS = Math.max(r.sampleS, atRest.riseS(found));
        fromS = found > 0 ? time.atS(found) - 0.5 * riseS : time.atS(found);
        fromS = Math.max(fromS, recordStartS);
        openStart = false;
      } else {
        fromS = r.t[first] - cycleS;
      }
      int whole = Math.min(r.t.length - 1, first + 2);
      double hiddenS = floor.hiddenS(r.high[whole], 1 / cycleS, r.sampleS);
      fromU = Math.hypot(Accuracy.ofWidth(Math.max(r.sampleS, riseS)), hiddenS);
      // Thyristors fire six times a cycle; a recorder of few samples may miss the first, short
      // ones.
      if (r.sampleS * FEW_SAMPLES > cycleS) {
        fromU = Math.hypot(fromU, cycleS / 6 / Math.sqrt(3));
      }
    }
    boolean openEnd = stillFlowing || r.t[last] + 1.5 * cycleS > r.endS();
    double toS = r.endS();
    double toU = 0;
    if (!openEnd) {
      int after = last;
      while (after + 1 < r.t.length && Double.isNaN(r.high[after + 1])) {
        after++;
      }
      double restS = r.t[after] + cycleS;
      SampleFloor atRest = floor.atRest(r, restS + 0.5 * cycleS, restS + REST_CYCLES * cycleS);
      double found = lastFlowingS(r, atRest, r.t[last] - 2 * cycleS, restS);
      toS = !Double.isNaN(found) ? found : r.t[last] - 0.5 * cycleS;
      // Thyristors conduct to the current's next zero: the order came up to half a cycle earlier.
      toU = cycleS / 2 / Math.sqrt(3);
    }
    int lastWhole = last;
    while (lastWhole > first && r.t[lastWhole] > toS) {
      lastWhole--;
    }
    return new Flow(first, last, lastWhole, fromS, fromU, toS, toU, openStart, openEnd);
  }

  /** The first sample of current in [fromS, toS]; -1 when there is none. */
  private static int firstFlowing(Readings r, SampleFloor floor, double fromS, double toS) {
    TimeBase time = r.trace.time();
    int begin = time.firstAtOrAfter(fromS);
    int end = Math.min(time.size(), time.firstAtOrAfter(toS));
    for (int i = begin; i + 1 < end; i++) {
      if (floor.exceeded(i, i + 1)) {
        return i;
      }
    }
    return -1;
  }

  /** Instant after the last sample of current in [fromS, toS]; NaN when there is none. */
  private static double lastFlowingS(Readings r, SampleFloor floor, double fromS, double toS) {
    TimeBase time = r.trace.time();
    int begin = Math.max(1, time.firstAtOrAfter(fromS));
    int end = Math.min(time.size(), time.firstAtOrAfter(toS));
    for (int i = end - 1; i >= begin; i--) {
      if (floor.exceeded(i, i - 1)) {
        return i + 1 < time.size() ? 0.5 * (time.atS(i) + time.atS(i + 1)) : time.atS(i);
      }
    }
    return Double.NaN;
  }
}
