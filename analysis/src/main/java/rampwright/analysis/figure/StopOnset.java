package rampwright.analysis.figure;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.signal.Noise;

/**
 * Where the run current first leaves its level by more than its own scatter, before the stop.
 *
 * <p>A starter that lowers its reference takes a few percent off the current, or adds some, long
 * before a tenth of In is reached. The mean of the phases scatters less than one of them; readings
 * that all lie to one side of the run's level by four times its scatter are its departure, unless
 * the current comes back for a second.
 */
final class StopOnset {
  private static final double REFERENCE_S = 4.0;
  private static final double TIMES_SCATTER = 4.0;
  private static final double LEAST_SHARE = 0.004;
  private static final double LASTING_S = 0.06;
  private static final int LEAST_READINGS = 2;
  private static final double INSIDE_S = 1.0;
  // A departure too small to be seen otherwise must last to the cut, but for crossing the level.
  private static final double SHORT_INSIDE_S = 0.3;
  private static final int MANY_OUTSIDE = 4;
  // What a meter averages over: readings nearer to the cut hold some of it.
  private static final double AVERAGED_S = 0.04;
  private static final double MAD_TO_SIGMA = 1.4826;

  private final Readings r;
  private final Flow flow;
  private final double[] mean;
  private final int from;
  private final double levelA;
  private final double limitA;

  private StopOnset(Readings r, Flow flow, Steady steady, RunState run) {
    this.r = r;
    this.flow = flow;
    double untilS = r.t[Math.max(0, Math.min(r.t.length, steady.to()) - 1)];
    this.from = Math.max(run.first(), r.firstAtOrAfter(untilS - REFERENCE_S));
    int to = Math.max(from, steady.to());
    this.mean = meanOfPhases(r, from, flow.last());
    double[] reference = Arrays.copyOf(mean, Math.max(0, to - from));
    this.levelA = Noise.median(reference, 0, reference.length);
    double[] off = new double[reference.length];
    for (int i = 0; i < off.length; i++) {
      off[i] = Math.abs(reference[i] - levelA);
    }
    double scatter = MAD_TO_SIGMA * Noise.median(off, 0, off.length);
    double step = Noise.resolution(reference, 0, reference.length);
    this.limitA =
        Math.max(LEAST_SHARE * levelA, TIMES_SCATTER * Math.max(scatter, Accuracy.ofWidth(step)));
  }

  /** What the run current does before the stop; null where the run is too short to know it. */
  static @Nullable StopOnset of(Readings r, Flow flow, Steady steady, RunState run) {
    StopOnset onset = new StopOnset(r, flow, steady, run);
    return Double.isNaN(onset.levelA) || steady.to() - onset.from < 8 ? null : onset;
  }

  private static double[] meanOfPhases(Readings r, int from, int last) {
    double[] mean = new double[Math.max(0, last - from + 1)];
    for (int k = from; k <= last; k++) {
      double sum = 0;
      int n = 0;
      for (double[] phase : r.current) {
        if (!Double.isNaN(phase[k])) {
          sum += phase[k];
          n++;
        }
      }
      mean[k - from] = n == r.current.length ? sum / n : Double.NaN;
    }
    return mean;
  }

  /**
   * The onset of a departure that was seen at an index, or of one too small to be seen otherwise.
   *
   * @param departed where the departure is sure; negative: unknown, it must last to current's end
   * @return index of the first reading off the run's level; -1 when there is none
   */
  int before(int departed) {
    int last = departed < 0 ? lastWhole() : departed;
    double longestInsideS = departed < 0 ? SHORT_INSIDE_S : INSIDE_S;
    int lasting = Math.max(LEAST_READINGS, (int) Math.round(LASTING_S / r.stepS));
    int found = -1;
    int held = 0;
    int outside = 0;
    double insideSinceS = Double.NaN;
    for (int k = from; k <= last; k++) {
      int side = side(k);
      if (side == 0) {
        held = 0;
        insideSinceS = Double.isNaN(insideSinceS) ? r.t[k] : insideSinceS;
        if (r.t[k] - insideSinceS >= longestInsideS) {
          found = -1;
          outside = 0;
        }
        continue;
      }
      insideSinceS = Double.NaN;
      held = held > 0 && side == side(k - 1) ? held + 1 : 1;
      outside++;
      if (found < 0 && held >= lasting) {
        found = k - held + 1;
      }
    }
    boolean toTheEnd = last > from && side(last) != 0 && side(last - 1) == side(last);
    return departed >= 0 || toTheEnd || outside >= MANY_OUTSIDE ? found : -1;
  }

  /** Last reading that holds nothing of the cut. */
  private int lastWhole() {
    double wholeS = flow.toS() - 0.5 * Math.max(AVERAGED_S, r.stepS) - 0.1 * r.stepS;
    int k = r.averaging.isSlow(r.stepS) ? flow.lastWhole() : flow.last();
    while (k > from && k > flow.lastWhole() && r.t[k] > wholeS) {
      k--;
    }
    return k;
  }

  /** -1 below the run's level, 1 above, 0 at it or not known. */
  private int side(int k) {
    if (k < from) {
      return 0;
    }
    double off = mean[k - from] - levelA;
    return off > limitA ? 1 : off < -limitA ? -1 : 0;
  }
}
