package rampwright.analysis.figure;

import rampwright.analysis.signal.WindowIntegral;
import rampwright.analysis.trace.Samples;

/** The integral of the square of phase currents over a window. */
final class CurrentIntegral {
  private CurrentIntegral() {}

  /**
   * Integral of i^2 dt of one phase over [fromS, toS], A^2 s; NaN when the phase was not read
   * there.
   *
   * <p>Waveform: over the samples themselves, not over the one-cycle track, which is late.
   * Readings: trapezoids between readings; from a flow's first instant to its first reading the
   * first reading holds, since the step lies at that instant, and likewise at its end.
   */
  static double ofPhase(Readings r, int phase, double fromS, double toS) {
    if (r.isWaveform()) {
      Samples samples = r.trace.channel(r.phases.get(phase));
      return samples == null
          ? Double.NaN
          : WindowIntegral.square(r.trace.time(), samples, fromS, toS);
    }
    double[] i = r.current[phase];
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

  /** What gaps longer than three readings leave open in the mean of squares' integral, A^2 s. */
  static double gapUncertainty(Readings r, double fromS, double toS) {
    double sum = 0;
    int last = -1;
    int end = r.firstAtOrAfter(toS);
    for (int k = Math.max(0, r.firstAtOrAfter(fromS) - 1); k < Math.min(end + 1, r.t.length); k++) {
      if (Double.isNaN(r.high[k])) {
        continue;
      }
      if (last >= 0 && r.t[k] - r.t[last] > 3.5 * r.stepS) {
        double a = r.high[last] * r.high[last];
        double b = r.high[k] * r.high[k];
        double widest = Math.max(Math.abs(a - b), 0.1 * Math.max(a, b));
        double gapS = Math.min(r.t[k], toS) - Math.max(r.t[last], fromS);
        sum += Math.pow(Accuracy.ofWidth(widest) * Math.max(0, gapS), 2);
      }
      last = k;
    }
    return Math.sqrt(sum);
  }
}
