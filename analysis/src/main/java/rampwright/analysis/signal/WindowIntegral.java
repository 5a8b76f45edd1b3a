package rampwright.analysis.signal;

import rampwright.analysis.trace.EvenTime;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;

/**
 * Integrals of a sampled signal over a window whose ends fall between samples.
 *
 * <p>Formula: the trapezoid rule, with the integrand taken linear between samples. Over whole
 * cycles of an evenly sampled periodic signal the two part cells at the ends are one cell of the
 * period, so the sum is the plain rectangle sum, exact for harmonics below the sampling rate less
 * the order looked at. When the cycle does not hold a whole number N of samples the error is below
 * about (2 pi / N)^3 / 12 of the result.
 *
 * <p>Missing samples are bridged by their neighbours, but what lies between is not counted as seen.
 * {@link #square} needs nearly the whole window seen, for the square of an alternating signal goes
 * from nothing to its top within a quarter of a cycle; the others need half of it.
 */
public final class WindowIntegral {
  private static final double LEAST_SEEN = 0.5;
  // A twentieth of a half cycle at its top holds a tenth of the square's integral, 5 % of the RMS
  // of
  // that half, if it were left out; bridged, a small part of that.
  private static final double NEARLY_WHOLE = 0.95;
  // Stamps of an uneven record may lie up to this many intervals apart without a sample missing.
  private static final double MOST_UNEVEN = 2.5;

  private WindowIntegral() {}

  /** Integral of the square over [fromS, toS], unit squared seconds; NaN when not nearly whole. */
  public static double square(TimeBase time, Samples samples, double fromS, double toS) {
    double quick =
        time instanceof EvenTime even
            ? EvenWindow.integral(even, samples, fromS, toS, true)
            : Double.NaN;
    return Double.isNaN(quick) ? Walk.over(time, samples, fromS, toS, Walk.SQUARE, 0)[0] : quick;
  }

  /** Integral of the value over [fromS, toS], unit seconds; NaN when half is missing. */
  public static double value(TimeBase time, Samples samples, double fromS, double toS) {
    double quick =
        time instanceof EvenTime even
            ? EvenWindow.integral(even, samples, fromS, toS, false)
            : Double.NaN;
    return Double.isNaN(quick) ? Walk.over(time, samples, fromS, toS, Walk.VALUE, 0)[0] : quick;
  }

  /**
   * Integrals of x cos(w t) and -x sin(w t) with t on the trace's time base. Their angle is the
   * phase of the cosine at time 0.
   */
  public static double[] fourier(
      TimeBase time, Samples samples, double fromS, double toS, double frequencyHz) {
    return Walk.over(time, samples, fromS, toS, Walk.FOURIER, 2 * Math.PI * frequencyHz);
  }

  /** One walk over the samples of a window. */
  private static final class Walk {
    private static final int VALUE = 0;
    private static final int SQUARE = 1;
    private static final int FOURIER = 2;

    private Walk() {}

    static double[] over(
        TimeBase time, Samples samples, double fromS, double toS, int what, double omega) {
      int size = time.size();
      // From the last sample at or before the window to the first at or after it.
      int first = Math.max(0, time.firstAtOrAfter(fromS) - 1);
      double stepS = time instanceof EvenTime even ? even.stepS() : Double.NaN;
      double sumA = 0;
      double sumB = 0;
      double spannedS = 0;
      double seenS = 0;
      double mostS = MOST_UNEVEN * time.typicalStepS();
      boolean skipped = false;
      double lastT = Double.NaN;
      double cos = 1;
      double sin = 0;
      double turnCos = Math.cos(omega * stepS);
      double turnSin = Math.sin(omega * stepS);
      boolean turning = what == FOURIER && stepS > 0;
      if (turning) {
        double angle = omega * time.atS(first);
        cos = Math.cos(angle);
        sin = Math.sin(angle);
      }
      double lastA = 0;
      double lastB = 0;
      for (int i = first; i < size; i++) {
        double t = time.atS(i);
        double x = samples.at(i);
        if (what == FOURIER && !turning) {
          cos = Math.cos(omega * t);
          sin = Math.sin(omega * t);
        }
        if (Double.isNaN(x)) {
          skipped = true;
        } else {
          double a = what == VALUE ? x : what == SQUARE ? x * x : x * cos;
          double b = what == FOURIER ? -x * sin : 0;
          if (!Double.isNaN(lastT)) {
            double fullS = t - lastT;
            double aS = Math.max(lastT, fromS);
            double bS = Math.min(t, toS);
            if (bS > aS) {
              if (aS == lastT && bS == t) {
                sumA += 0.5 * (a + lastA) * fullS;
                sumB += 0.5 * (b + lastB) * fullS;
              } else {
                double u = (aS - lastT) / fullS;
                double v = (bS - lastT) / fullS;
                double middle = 0.5 * (u + v);
                sumA += (lastA + (a - lastA) * middle) * (bS - aS);
                sumB += (lastB + (b - lastB) * middle) * (bS - aS);
              }
              spannedS += bS - aS;
              seenS += skipped || fullS > mostS ? 0 : bS - aS;
            }
          }
          lastT = t;
          skipped = false;
          lastA = a;
          lastB = b;
        }
        // Past the window only its last part cell is of interest.
        if (t >= toS && (lastT == t || t - toS > toS - fromS)) {
          break;
        }
        if (turning) {
          double next = cos * turnCos - sin * turnSin;
          sin = sin * turnCos + cos * turnSin;
          cos = next;
        }
      }
      double least = (what == SQUARE ? NEARLY_WHOLE : LEAST_SEEN) * (toS - fromS);
      // Sums of cells may be a few ulps short of the whole.
      if (!(seenS >= least * (1 - 1e-9)) || !(seenS > 0)) {
        return new double[] {Double.NaN, Double.NaN};
      }
      double scale = (toS - fromS) / spannedS;
      // Only what the ends lack is scaled up; whole windows are left as they are.
      if (Math.abs(scale - 1) < 1e-9) {
        scale = 1;
      }
      return new double[] {sumA * scale, sumB * scale};
    }
  }
}
