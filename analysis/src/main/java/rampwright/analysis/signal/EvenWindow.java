package rampwright.analysis.signal;

import rampwright.analysis.trace.EvenTime;
import rampwright.analysis.trace.Samples;

/**
 * The integrals of {@link WindowIntegral} for evenly spaced samples that are all good, which most
 * windows are. The sum of the inner samples is one plain loop over an array; only the two cells at
 * the ends need their times. Same trapezoid rule, other order of additions: results agree to some
 * 1e-15 of themselves.
 */
final class EvenWindow {
  private static final int PIECE = 512;

  private final Samples samples;
  private final int first;
  private final int last;
  private final double fromS;
  private final double toS;
  private final double firstCellS;
  private final double lastCellS;
  private final double stepS;

  private EvenWindow(
      EvenTime time, Samples samples, int first, int last, double fromS, double toS) {
    this.samples = samples;
    this.first = first;
    this.last = last;
    this.fromS = fromS;
    this.toS = toS;
    this.firstCellS = time.atS(first);
    this.lastCellS = time.atS(last - 1);
    this.stepS = time.stepS();
  }

  /**
   * Integral of the square or of the value over [fromS, toS].
   *
   * @return NaN where this way cannot be gone: samples missing, or the window leaves the record or
   *     lies within one cell
   */
  static double integral(
      EvenTime time, Samples samples, double fromS, double toS, boolean ofSquare) {
    int first = time.firstAtOrAfter(fromS) - 1;
    int last = time.firstAtOrAfter(toS);
    if (first < 0 || last >= time.size() || last - first < 2) {
      return Double.NaN;
    }
    return new EvenWindow(time, samples, first, last, fromS, toS).sum(ofSquare);
  }

  private double sum(boolean ofSquare) {
    double[] piece = new double[Math.min(PIECE, last - first + 1)];
    double inner = 0;
    // Samples first + 1 to last - 1 each stand for a whole step, less a half at either end.
    for (int from = first + 1; from < last; from += piece.length) {
      int count = Math.min(piece.length, last - from);
      samples.copy(from, piece, 0, count);
      inner += ofSquare ? squares(piece, count) : values(piece, count);
    }
    double a0 = integrand(first, ofSquare);
    double a1 = integrand(first + 1, ofSquare);
    double b0 = integrand(last - 1, ofSquare);
    double b1 = integrand(last, ofSquare);
    double u = (fromS - firstCellS) / stepS;
    double v = (toS - lastCellS) / stepS;
    return stepS
        * (inner
            - 0.5 * (a1 + b0)
            + (a0 + (a1 - a0) * 0.5 * (1 + u)) * (1 - u)
            + (b0 + (b1 - b0) * 0.5 * v) * v);
  }

  private double integrand(int index, boolean ofSquare) {
    double x = samples.at(index);
    return ofSquare ? x * x : x;
  }

  private static double squares(double[] values, int count) {
    double sum = 0;
    for (int i = 0; i < count; i++) {
      sum += values[i] * values[i];
    }
    return sum;
  }

  private static double values(double[] values, int count) {
    double sum = 0;
    for (int i = 0; i < count; i++) {
      sum += values[i];
    }
    return sum;
  }
}
