package rampwright.analysis.figure;

import rampwright.analysis.signal.Cycles;
import rampwright.analysis.signal.WindowIntegral;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;

/** The integral of the square of phase currents over a window. */
final class CurrentIntegral {
  /** A phase read for less of a window than this does not stand for it. */
  private static final double LEAST_READ = 0.5;

  private CurrentIntegral() {}

  /**
   * Integral of i^2 dt of one phase over [fromS, toS], A^2 s; NaN when the phase was not read over
   * half of it.
   *
   * <p>Waveform: over the samples themselves, not over the one-cycle track, which is late; a half
   * cycle that lacks samples gets the mean square of its neighbours. Readings: trapezoids between
   * readings, longer gaps filled from the other phases; from a flow's first instant to its first
   * reading the first reading holds, since the step lies at that instant, and likewise at its end.
   */
  static double ofPhase(Readings r, int phase, double fromS, double toS) {
    if (r.gaps.readShare(phase, fromS, toS) < LEAST_READ) {
      return Double.NaN;
    }
    if (r.cycles != null) {
      Samples samples = r.trace.channel(r.phases.get(phase));
      return samples == null ? Double.NaN : ofSamples(r, r.cycles, samples, fromS, toS);
    }
    return r.averaging.isSlow(r.stepS)
        ? ofReadings(r, phase, fromS - r.averaging.quarterS(), slowEndS(r, toS))
        : ofReadings(r, phase, fromS, toS);
  }

  /**
   * To where a slow meter's readings hold what flowed up to an instant: averages show it up to half
   * their span later; where the current ceases there, to the end of its tail.
   */
  private static double slowEndS(Readings r, double toS) {
    double quarterS = r.averaging.quarterS();
    return toS + (ceases(r, toS) ? 3 : 1) * quarterS;
  }

  /** Whether a slow meter's readings show current ceasing at an instant. */
  static boolean ceases(Readings r, double atS) {
    int k = r.firstAtOrAfter(atS + 3 * r.averaging.quarterS());
    return r.averaging.isSlow(r.stepS) && k < r.t.length && !(r.high[k] > r.thresholdA);
  }

  private static double ofReadings(Readings r, int phase, double fromS, double toS) {
    double[] i = r.currentFilled[phase];
    double sum = 0;
    double lastS = fromS;
    double lastSquare = Double.NaN;
    double coveredS = 0;
    for (int k = r.firstAtOrAfter(fromS + 0.5 * r.stepS); k < r.t.length; k++) {
      if (Double.isNaN(i[k])) {
        continue;
      }
      if (r.t[k] < toS && r.t[k] > toS - 0.5 * r.stepS && i[k] < 0.7 * Math.sqrt(lastSquare)) {
        // A reading that averaged over current ceasing.
        continue;
      }
      double square = i[k] * i[k];
      double from = !Double.isNaN(lastSquare) ? lastSquare : square;
      if (r.t[k] >= toS) {
        // Current that ceases does so in a step: what was read before holds up to it.
        double to = i[k] > r.thresholdA ? square : from;
        double share = (toS - lastS) / Math.max(r.t[k] - lastS, 1e-12);
        double atEnd = from + (to - from) * Math.min(1, share);
        sum += 0.5 * (from + atEnd) * (toS - lastS);
        coveredS += toS - lastS;
        return coveredS > 0 ? sum : Double.NaN;
      }
      sum += 0.5 * (from + square) * (r.t[k] - lastS);
      coveredS += r.t[k] - lastS;
      lastS = r.t[k];
      lastSquare = square;
    }
    if (!Double.isNaN(lastSquare) && toS > lastS) {
      sum += lastSquare * (toS - lastS);
    }
    return coveredS > 0 ? sum : Double.NaN;
  }

  /**
   * What the course between readings leaves open in the integral of the mean of the phases'
   * squares, A^2 s: between two readings the square may have run anywhere between theirs.
   *
   * <p>A slow meter's readings hold all that flowed, but a quarter of its span late or early.
   */
  static double betweenReadings(Readings r, double fromS, double toS) {
    if (r.isWaveform()) {
      return 0;
    }
    double sum = 0;
    double last = Double.NaN;
    double lastS = 0;
    for (int k = r.firstAtOrAfter(fromS - r.stepS); k < r.t.length; k++) {
      double square = CurrentFigures.squareAt(r, r.t[k]);
      if (!Double.isNaN(last) && r.t[k] <= toS) {
        double open = Accuracy.ofWidth((square - last) * (r.t[k] - Math.max(fromS, lastS)));
        sum += open * open;
      }
      if (r.t[k] > toS) {
        break;
      }
      last = square;
      lastS = r.t[k];
    }
    double atEnd =
        r.averaging.isSlow(r.stepS) ? CurrentFigures.squareAt(r, toS) * r.averaging.quarterS() : 0;
    return Math.hypot(Math.sqrt(sum), atEnd);
  }

  /** Half cycle by half cycle; the parts add up to the whole exactly. */
  private static double ofSamples(
      Readings r, Cycles cycles, Samples samples, double fromS, double toS) {
    TimeBase time = r.trace.time();
    double[] edge = cycles.boundaryS();
    double sum = 0;
    double waitingS = 0;
    double lastMean = Double.NaN;
    double partS = fromS;
    int k = 0;
    while (k < edge.length && edge[k] <= fromS) {
      k++;
    }
    while (partS < toS) {
      double endS = k < edge.length ? Math.min(toS, edge[k]) : toS;
      k++;
      if (!(endS > partS)) {
        continue;
      }
      double part = WindowIntegral.square(time, samples, partS, endS);
      if (Double.isNaN(part)) {
        waitingS += endS - partS;
      } else {
        double mean = part / (endS - partS);
        sum += part + waitingS * (Double.isNaN(lastMean) ? mean : (mean + lastMean) / 2);
        waitingS = 0;
        lastMean = mean;
      }
      partS = endS;
    }
    return sum + (waitingS > 0 ? waitingS * lastMean : 0);
  }

  /** What longer gaps leave open in the integral of the mean of the phases' squares, A^2 s. */
  static double gapUncertainty(Readings r, double fromS, double toS) {
    double sum = 0;
    int n = 0;
    for (int p = 0; p < r.phases.size(); p++) {
      if (r.gaps.readShare(p, fromS, toS) >= LEAST_READ) {
        // Gaps of several phases at once are off the same way.
        sum += r.gaps.squareUncertainty(p, fromS, toS);
        n++;
      }
    }
    return n == 0 ? 0 : sum / n;
  }
}
