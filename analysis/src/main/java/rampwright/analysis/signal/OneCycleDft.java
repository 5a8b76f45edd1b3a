package rampwright.analysis.signal;

import java.util.function.BiFunction;
import rampwright.analysis.trace.Samples;

/**
 * Mean, RMS and RMS phasors of orders 1 to N over one cycle whose ends may lie between samples. The
 * weights of the samples are worked out once for a window and serve all channels.
 *
 * <p>Formula: X_h = sqrt(2)/L integral x(t) exp(-j 2 pi h (t - from)/L) dt over [from, to); mean =
 * 1/L integral x dt; RMS^2 = 1/L integral x^2 dt. The integrals are sums over the samples (the
 * trapezoid rule) with end weights that are right for a cubic through the four samples around each
 * end, for any order ({@link EndWeights}). With both ends on samples and a periodic signal this is
 * the DFT of the cycle's samples.
 *
 * <p>Symbols: x samples; L = to - from, length of the cycle in samples; h order; t position in
 * samples.
 *
 * <p>Shape: reads up to two samples beside the window. Where the record ends sooner, the four
 * samples nearest the end serve. A NaN among the samples read makes everything NaN.
 *
 * <p>Valid: L >= 4; 0 <= from, to <= size - 1; orders below L/2 (Nyquist). Error of a smooth signal
 * with RMS X_m of order m, m <= L/4, away from the record's ends: below X_m (2 pi m/L)^4 / (8 L) in
 * every order and the mean (L = 84.17, m = 1: 5e-8; L = 16.7: 1.6e-4); RMS^2 the same with 2 m for
 * m and X_m^2 for X_m. A kink in the signal (thyristor firing) adds an error of the order of (jump
 * of slope per sample)/(12 L), a step one of (step)/(2 L). A window that is off the true cycle by a
 * share e leaks about e X_1 into each low order; see analysis/docs/signal.md.
 *
 * <p>Source: definition of the discrete Fourier transform; end weights own derivation,
 * analysis/docs/signal.md section 1.
 *
 * <p>Checked: OneCycleDftReferenceTest (Hipparchus FFT, closed forms), OneCycleDftTest.
 */
public final class OneCycleDft {
  private static final double MIN_LENGTH = 4;
  private static final int RENEW_EVERY = 64;

  private final SampleWindow window;
  private final int size;
  private final int orders;
  private final int firstRow;
  private final double[] meanWeights;

  /** Rows of 2 x orders: weights of the real parts, then of the imaginary parts. */
  private final double[] weights;

  /**
   * Weights for a window.
   *
   * @param window one cycle
   * @param size number of samples of the record
   * @param orders highest order wanted, from 0 (mean and RMS only)
   * @throws IllegalArgumentException when the window is not inside the record or too short for the
   *     orders
   */
  public OneCycleDft(SampleWindow window, int size, int orders) {
    if (window.length() < MIN_LENGTH || window.to() > size - 1) {
      throw new IllegalArgumentException(
          "window "
              + window.from()
              + " to "
              + window.to()
              + ": need at least "
              + MIN_LENGTH
              + " samples, and an end no later than the last of "
              + size
              + " samples");
    }
    if (orders < 0 || orders > highestOrder(window)) {
      throw new IllegalArgumentException(
          "order "
              + orders
              + " is outside 0 to "
              + highestOrder(window)
              + ", what "
              + window.length()
              + " samples a cycle can tell");
    }
    this.window = window;
    this.size = size;
    this.orders = orders;
    int first = (int) Math.ceil(window.from());
    int last = (int) Math.floor(window.to());
    int startPoints = stencil((int) Math.floor(window.from()));
    int endPoints = stencil(last);
    this.firstRow = Math.min(first, startPoints);
    int rows = Math.max(last, endPoints + EndWeights.POINTS - 1) - firstRow + 1;
    this.meanWeights = new double[rows];
    this.weights = new double[rows * 2 * orders];
    fillInterior(first, last);
    addEnds(first, last, startPoints, endPoints);
  }

  /** Highest order that a cycle of that length can tell: the largest whole number below L/2. */
  public static int highestOrder(SampleWindow window) {
    return (int) Math.ceil(window.length() / 2) - 1;
  }

  /** Mean, RMS and phasors of one channel over one window. */
  public static CycleSpectrum of(Samples samples, SampleWindow window, int orders) {
    return new OneCycleDft(window, samples.size(), orders).of(samples);
  }

  public SampleWindow window() {
    return window;
  }

  public int orders() {
    return orders;
  }

  /** Mean, RMS and phasors of a channel. */
  public CycleSpectrum of(Samples samples) {
    return ofValues(values(samples));
  }

  /** Mean of the product of two channels over the window; of v and i: the active power. */
  public double meanOfProduct(Samples x, Samples y) {
    return meanOfProducts(values(x), values(y));
  }

  /** The samples that the window reads, for sums and differences of channels. */
  double[] values(Samples samples) {
    checkSize(samples.size());
    double[] values = new double[meanWeights.length];
    samples.copy(firstRow, values, 0, values.length);
    return values;
  }

  /** The samples that the window reads, of channels that are computed as they are read. */
  double[][] values(BiFunction<Integer, Integer, double[][]> reader, int readerSize) {
    checkSize(readerSize);
    return reader.apply(firstRow, meanWeights.length);
  }

  double meanOfProducts(double[] x, double[] y) {
    double sum = 0;
    for (int k = 0; k < meanWeights.length; k++) {
      sum += meanWeights[k] * x[k] * y[k];
    }
    return sum / window.length();
  }

  CycleSpectrum ofValues(double[] x) {
    double sum = 0;
    for (int k = 0; k < meanWeights.length; k++) {
      sum += meanWeights[k] * x[k];
    }
    double[] parts = sums(x);
    double scale = Math.sqrt(2) / window.length();
    double[] re = new double[orders];
    double[] im = new double[orders];
    for (int h = 0; h < orders; h++) {
      re[h] = scale * parts[h];
      im[h] = scale * parts[orders + h];
    }
    return new CycleSpectrum(sum / window.length(), meanOfProducts(x, x), re, im);
  }

  private void checkSize(int channelSize) {
    if (channelSize != size) {
      throw new IllegalArgumentException(
          "channel has " + channelSize + " samples; the window was made for " + size);
    }
  }

  private double[] sums(double[] x) {
    int width = 2 * orders;
    double[] sums = new double[width];
    int k = 0;
    // Four rows a pass: the inner loop then runs in vector registers with a quarter of the stores.
    for (; k + 4 <= x.length; k += 4) {
      addRows(sums, x[k], x[k + 1], x[k + 2], x[k + 3], k * width);
    }
    for (; k < x.length; k++) {
      for (int j = 0; j < width; j++) {
        sums[j] += x[k] * weights[k * width + j];
      }
    }
    return sums;
  }

  private void addRows(double[] sums, double x0, double x1, double x2, double x3, int at) {
    int width = sums.length;
    double[] w = weights;
    int at1 = at + width;
    int at2 = at1 + width;
    int at3 = at2 + width;
    for (int j = 0; j < width; j++) {
      sums[j] += x0 * w[at + j] + x1 * w[at1 + j] + x2 * w[at2 + j] + x3 * w[at3 + j];
    }
  }

  private void fillInterior(int first, int last) {
    double theta = 2 * Math.PI / window.length();
    double stepCos = Math.cos(theta);
    double stepSin = Math.sin(theta);
    double cos = 0;
    double sin = 0;
    for (int k = first; k <= last; k++) {
      if ((k - first) % RENEW_EVERY == 0) {
        cos = Math.cos(theta * (k - window.from()));
        sin = Math.sin(theta * (k - window.from()));
      } else {
        double next = cos * stepCos - sin * stepSin;
        sin = sin * stepCos + cos * stepSin;
        cos = next;
      }
      int row = k - firstRow;
      meanWeights[row] = 1;
      int at = row * 2 * orders;
      double c = 1;
      double s = 0;
      for (int h = 0; h < orders; h++) {
        double next = c * cos - s * sin;
        s = s * cos + c * sin;
        c = next;
        weights[at + h] = c;
        weights[at + orders + h] = -s;
      }
    }
  }

  private void addEnds(int first, int last, int startPoints, int endPoints) {
    double[] fromStart = new double[EndWeights.POINTS];
    double[] fromEnd = new double[EndWeights.POINTS];
    for (int j = 0; j < EndWeights.POINTS; j++) {
      fromStart[j] = startPoints + j - window.from();
      fromEnd[j] = window.to() - (endPoints + j);
    }
    EndWeights start = new EndWeights(first - window.from(), fromStart);
    EndWeights end = new EndWeights(window.to() - last, fromEnd);
    int startRow = startPoints - firstRow;
    int endRow = endPoints - firstRow;
    for (int j = 0; j < EndWeights.POINTS; j++) {
      meanWeights[startRow + j] += start.mean(j);
      meanWeights[endRow + j] += end.mean(j);
    }
    double theta = 2 * Math.PI / window.length();
    for (int h = 1; h <= orders; h++) {
      start.addTo(h * theta, false, weights, startRow, 2 * orders, h - 1, orders + h - 1);
      end.addTo(h * theta, true, weights, endRow, 2 * orders, h - 1, orders + h - 1);
    }
  }

  /** First of the four samples around a position, moved to where the record has four. */
  private int stencil(int floor) {
    return Math.max(0, Math.min(size - EndWeights.POINTS, floor - 1));
  }
}
