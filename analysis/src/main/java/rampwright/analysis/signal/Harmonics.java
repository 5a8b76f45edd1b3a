package rampwright.analysis.signal;

/**
 * Distortion of one channel over one cycle, from its harmonics.
 *
 * <p>Orders run from 2 to 40 or to the highest below half the sampling rate, whichever is lower;
 * {@link #highestOrder} tells which it was, and a total is only comparable with one over the same
 * range. Between orders (interharmonics) a single cycle cannot tell: they show in the neighbouring
 * orders.
 *
 * <p>Checked: HarmonicsReferenceTest, PhaseControlReferenceTest.
 */
public final class Harmonics {
  /** Highest order of the total. IEC 61000-4-7 and -4-30: 40 in the older text (from memory). */
  public static final int HIGHEST_ORDER = 40;

  private Harmonics() {}

  /** Highest order that a total over that window takes in: 40, or less at low sampling rates. */
  public static int highestOrder(SampleWindow window) {
    return Math.min(HIGHEST_ORDER, OneCycleDft.highestOrder(window));
  }

  /**
   * Total harmonic distortion: RMS of orders 2 to the highest held (at most 40) over the RMS of the
   * fundamental.
   *
   * <p>Formula: sqrt(X2^2 + ... + XH^2) / X1.
   *
   * <p>Valid: a fundamental above 0, otherwise NaN. The d.c. part is not in it.
   *
   * <p>Source: IEC 61000-4-7, 3.3.1 (clause from memory).
   */
  public static double totalDistortion(CycleSpectrum spectrum) {
    double sum = 0;
    for (int h = 2; h <= Math.min(HIGHEST_ORDER, spectrum.highestOrder()); h++) {
      double magnitude = spectrum.magnitude(h);
      sum += magnitude * magnitude;
    }
    return over(Math.sqrt(sum), spectrum.magnitude(1));
  }

  /** RMS of one order over that of the fundamental; NaN without a fundamental. */
  public static double share(CycleSpectrum spectrum, int order) {
    return over(spectrum.magnitude(order), spectrum.magnitude(1));
  }

  /**
   * RMS of the even orders held (2 to at most 40) over that of the fundamental. Near zero while
   * both half waves conduct alike; not so when one thyristor of a pair does not fire.
   */
  public static double evenShare(CycleSpectrum spectrum) {
    double sum = 0;
    for (int h = 2; h <= Math.min(HIGHEST_ORDER, spectrum.highestOrder()); h += 2) {
      double magnitude = spectrum.magnitude(h);
      sum += magnitude * magnitude;
    }
    return over(Math.sqrt(sum), spectrum.magnitude(1));
  }

  /** Magnitude of the mean over the RMS of the whole; NaN when both are 0. */
  public static double meanShare(CycleSpectrum spectrum) {
    return over(Math.abs(spectrum.mean()), spectrum.rms());
  }

  private static double over(double part, double whole) {
    return whole > 0 ? part / whole : Double.NaN;
  }
}
