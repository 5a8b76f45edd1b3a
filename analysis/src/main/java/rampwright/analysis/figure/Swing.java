package rampwright.analysis.figure;

import java.util.Arrays;
import rampwright.analysis.signal.Noise;

/**
 * The highest phase of one flow with a regular swing of the load averaged out.
 *
 * <p>A piston or a lumpy mix makes the run current swing by 10 to 20 % a few times a second. No
 * window of half a second is flat then, and every crest looks like a departure. Where the current
 * crosses its own line three times or more in a window, by more than its noise, the swing's period
 * is taken from the crossings and the current is averaged over whole periods. Elsewhere the current
 * is left as it is.
 */
final class Swing {
  private static final double WINDOW_S = 4.0;
  private static final double LEAST_WINDOW_S = 1.5;
  // Noise and quantisation of a usual meter stay below; the threshold for a change is 10 % of In.
  private static final double LEAST_SHARE = 0.04;
  private static final double TIMES_NOISE = 1.5;
  private static final int LEAST_CROSSINGS = 3;
  private static final double HYSTERESIS = 0.5;
  private static final double LONGEST_PERIOD_S = 1.2;
  private static final double LEAST_AVERAGE_S = 0.5;

  /** The highest phase, A; averaged over {@code spanS} where there is a swing. */
  final double[] currentA;

  /** What the current was averaged over, a whole number of periods, s; 0 without a swing. */
  final double spanS;

  private Swing(double[] currentA, double spanS) {
    this.currentA = currentA;
    this.spanS = spanS;
  }

  static Swing of(Readings r, Flow flow) {
    double periodS = periodS(r, flow);
    if (!(periodS > 0)) {
      return new Swing(r.high, 0);
    }
    double spanS = periodS * Math.max(1, Math.round(LEAST_AVERAGE_S / periodS));
    return new Swing(averaged(r, flow, spanS), spanS);
  }

  boolean isThere() {
    return spanS > 0;
  }

  /** Median of the periods of all windows that swing; 0 where fewer than two in a row do. */
  private static double periodS(Readings r, Flow flow) {
    double lengthS = Math.min(WINDOW_S, r.t[flow.last()] - r.t[flow.first()]);
    int length = (int) Math.round(lengthS / r.stepS);
    if (lengthS < LEAST_WINDOW_S || length < 8) {
      return 0;
    }
    double[] periods = new double[flow.last() - flow.first() + 2];
    int n = 0;
    int inRow = 0;
    int mostInRow = 0;
    for (int k = flow.first(); k + length - 1 <= flow.last(); k += Math.max(1, length / 3)) {
      double one = periodOf(r, k, k + length);
      inRow = one > 0 ? inRow + 1 : 0;
      mostInRow = Math.max(mostInRow, inRow);
      if (one > 0) {
        periods[n++] = one;
      }
    }
    return mostInRow >= 2 ? Noise.median(Arrays.copyOf(periods, n), 0, n) : 0;
  }

  private static double periodOf(Readings r, int from, int to) {
    Line line = Line.through(r.t, r.high, from, to);
    double level = Noise.median(r.high, from, to);
    Double rated = r.motor.ratedCurrentA();
    boolean mayRun = rated == null || level < RunState.MOST_RUN_RATIO * rated;
    double noise = Noise.sigma(r.high, from, to);
    if (!mayRun
        || !(level > r.thresholdA)
        || line.scatter() < TIMES_NOISE * noise
        || line.scatter() * Math.sqrt(2) < LEAST_SHARE * level) {
      return 0;
    }
    double edge = HYSTERESIS * line.scatter();
    boolean low = false;
    int crossings = 0;
    double firstS = 0;
    double lastS = 0;
    double shortestS = Double.POSITIVE_INFINITY;
    double longestS = 0;
    for (int k = from; k < to; k++) {
      double off = r.high[k] - line.at(r.t[k]);
      if (off < -edge) {
        low = true;
      } else if (off > edge && low) {
        low = false;
        if (crossings > 0) {
          shortestS = Math.min(shortestS, r.t[k] - lastS);
          longestS = Math.max(longestS, r.t[k] - lastS);
        } else {
          firstS = r.t[k];
        }
        lastS = r.t[k];
        crossings++;
      }
    }
    // A reading's interval blurs each crossing; beyond that a swing comes at even times.
    boolean even = longestS <= 2 * shortestS + 2 * r.stepS;
    if (crossings < LEAST_CROSSINGS || !even) {
      return 0;
    }
    double periodS = (lastS - firstS) / (crossings - 1);
    return periodS <= LONGEST_PERIOD_S ? periodS : 0;
  }

  /** Mean over {@code spanS} about each stamp, by trapezoids; shorter towards the flow's ends. */
  private static double[] averaged(Readings r, Flow flow, double spanS) {
    double[] out = r.high.clone();
    int first = flow.first();
    int last = flow.last();
    double[] sum = new double[last - first + 1];
    for (int k = first + 1; k <= last; k++) {
      double a = r.high[k - 1];
      double b = r.high[k];
      double mean = Double.isNaN(a) ? b : Double.isNaN(b) ? a : 0.5 * (a + b);
      sum[k - first] = sum[k - 1 - first] + (Double.isNaN(mean) ? 0 : mean) * (r.t[k] - r.t[k - 1]);
    }
    for (int k = first; k <= last; k++) {
      double halfS = Math.min(0.5 * spanS, Math.min(r.t[k] - r.t[first], r.t[last] - r.t[k]));
      if (halfS > 0.5 * r.stepS && !Double.isNaN(r.high[k])) {
        out[k] =
            (at(r, first, last, sum, r.t[k] + halfS) - at(r, first, last, sum, r.t[k] - halfS))
                / (2 * halfS);
      }
    }
    return out;
  }

  private static double at(Readings r, int first, int last, double[] sum, double timeS) {
    int k = Math.max(first + 1, Math.min(last, r.firstAtOrAfter(timeS)));
    double share = (timeS - r.t[k - 1]) / (r.t[k] - r.t[k - 1]);
    return sum[k - 1 - first] + share * (sum[k - first] - sum[k - 1 - first]);
  }
}
