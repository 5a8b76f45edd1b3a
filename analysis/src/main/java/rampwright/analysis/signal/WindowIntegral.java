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
 * <p>NaN samples are bridged by their neighbours; a window with less than half of its length
 * covered by good samples gives NaN.
 */
public final class WindowIntegral {
  private static final double LEAST_COVER = 0.5;

  private WindowIntegral() {}

  /** Integral of the square over [fromS, toS], unit squared seconds; NaN when not covered. */
  public static double square(TimeBase time, Samples samples, double fromS, double toS) {
    double quick =
        time instanceof EvenTime even
            ? EvenWindow.integral(even, samples, fromS, toS, true)
            : Double.NaN;
    return Double.isNaN(quick) ? Walk.over(time, samples, fromS, toS, Walk.SQUARE, 0)[0] : quick;
  }

  /** Integral of the value over [fromS, toS], unit seconds; NaN when not covered. */
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
      double coveredS = 0;
      double lastT = Double.NaN;
      double lastX = 0;
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
        if (!Double.isNaN(x)) {
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
              coveredS += bS - aS;
            }
          }
          lastT = t;
          lastX = x;
          lastA = a;
          lastB = b;
        }
        if (t >= toS && lastT == t) {
          break;
        }
        if (turning) {
          double next = cos * turnCos - sin * turnSin;
          sin = sin * turnCos + cos * turnSin;
          cos = next;
        }
      }
      if (!(coveredS >= LEAST_COVER * (toS - fromS)) || Double.isNaN(lastX)) {
        return new double[] {Double.NaN, Double.NaN};
      }
      double scale = (toS - fromS) / coveredS;
      // Only what the ends lack is scaled up; whole windows are left as they are.
      if (Math.abs(scale - 1) < 1e-9) {
        scale = 1;
      }
      return new double[] {sumA * scale, sumB * scale};
    }
  }
}
