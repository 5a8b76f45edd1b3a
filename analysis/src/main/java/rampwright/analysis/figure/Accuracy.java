package rampwright.analysis.figure;

/**
 * What the trace itself cannot tell about its meters.
 *
 * <p>A constant gain error does not show in a record. Where nothing is said about the instruments,
 * class 1 of IEC 61557-12 (from memory: limits of error of 1 % of reading) is assumed, taken as a
 * rectangular distribution: standard uncertainty 1 % / sqrt(3), type B of JCGM 100, 4.3.7.
 */
final class Accuracy {
  /** Standard uncertainty of a reading's gain, as a share of the reading. */
  static final double GAIN = 0.01 / Math.sqrt(3);

  private Accuracy() {}

  /** Standard uncertainty of a current, A: gain and what noise leaves. */
  static double ofCurrent(double currentA, double noiseA) {
    return Math.hypot(GAIN * currentA, noiseA);
  }

  /** Standard deviation of a uniform error of full width {@code width}. */
  static double ofWidth(double width) {
    return width / Math.sqrt(12);
  }
}
