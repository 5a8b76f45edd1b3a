package rampwright.analysis.signal;

import org.hipparchus.complex.Complex;

/**
 * Mean, RMS and harmonics of one channel over one cycle.
 *
 * <p>A phasor is an RMS phasor: the part of order h is sqrt(2) |X| cos(h w (t - t0) + arg X), t0
 * the start of the window. Phasors of channels over the same window therefore compare in angle.
 *
 * <p>Everything is NaN when one sample in or beside the window has no good value.
 */
public final class CycleSpectrum {
  private final double mean;
  private final double meanSquare;
  private final double[] re;
  private final double[] im;

  CycleSpectrum(double mean, double meanSquare, double[] re, double[] im) {
    this.mean = mean;
    this.meanSquare = meanSquare;
    this.re = re;
    this.im = im;
  }

  /** Mean over the cycle: the d.c. part, with its sign. */
  public double mean() {
    return mean;
  }

  /** RMS over the cycle, everything included. */
  public double rms() {
    // The weights beside the window may be slightly negative: a silent window is 0, not NaN.
    return Math.sqrt(meanSquare < 0 ? 0 : meanSquare);
  }

  /** Highest order held; 0 when only mean and RMS are. */
  public int highestOrder() {
    return re.length;
  }

  /** RMS phasor of an order, 1 to {@link #highestOrder()}. */
  public Complex phasor(int order) {
    check(order);
    return new Complex(re[order - 1], im[order - 1]);
  }

  /** RMS magnitude of an order, 1 to {@link #highestOrder()}. */
  public double magnitude(int order) {
    check(order);
    return Math.hypot(re[order - 1], im[order - 1]);
  }

  /**
   * RMS of all but the fundamental, d.c. part included: sqrt(X^2 - X1^2), 0 where rounding makes
   * that negative.
   *
   * <p>Source: IEEE Std 1459-2010, 3.1.2.1 (clause from memory).
   */
  public double distortionRms() {
    double rest = meanSquare - re1Squared();
    return Double.isNaN(rest) ? Double.NaN : Math.sqrt(Math.max(0, rest));
  }

  private double re1Squared() {
    check(1);
    return re[0] * re[0] + im[0] * im[0];
  }

  private void check(int order) {
    if (order < 1 || order > re.length) {
      throw new IllegalArgumentException(
          "order " + order + " is outside 1 to " + re.length + ", the orders computed");
    }
  }
}
