package rampwright.analysis.signal;

import java.util.function.IntToDoubleFunction;
import rampwright.analysis.trace.Samples;

/**
 * Harmonic lines, groups and subgroups over ten (50 Hz) or twelve (60 Hz) cycles.
 *
 * <p>Formula: with Y_k the RMS of bin k (k whole waves in the window) and N cycles in the window:
 * line Y_(N h); group^2 = Y_(N h - N/2)^2 / 2 + sum over |k| < N/2 of Y_(N h + k)^2 + Y_(N h +
 * N/2)^2 / 2; subgroup^2 = sum over |k| <= 1 of Y_(N h + k)^2; interharmonic centred subgroup^2 =
 * sum over k = 2 .. N - 2 of Y_(N h + k)^2. Distortion: orders 2 to the highest over order 1, of
 * the same kind.
 *
 * <p>Valid: a steady stretch. Over a ramp the fundamental leaks into its neighbours, so that groups
 * and subgroups of a start only indicate; there the one-cycle {@link Harmonics} serve. The window
 * must be N whole cycles: off by a share e, a line h leaks about h e N of itself into its
 * neighbours.
 *
 * <p>Source: IEC 61000-4-7, clause 5 (from memory); group and subgroup widths as there for N = 10
 * and 12.
 *
 * <p>Checked: HarmonicSubgroupsReferenceTest.
 */
public final class HarmonicSubgroups {
  private final int cycles;
  private final int highestOrder;
  private final double[] square;

  private HarmonicSubgroups(int cycles, int highestOrder, double[] square) {
    this.cycles = cycles;
    this.highestOrder = highestOrder;
    this.square = square;
  }

  /**
   * Groups of a channel.
   *
   * @param window the whole cycles, end to end
   * @param cycles how many cycles the window holds: 10 or 12
   * @param highestOrder highest order wanted; at most {@link #highestOrder(SampleWindow, int)}
   */
  public static HarmonicSubgroups over(
      Samples samples, SampleWindow window, int cycles, int highestOrder) {
    if (cycles != 10 && cycles != 12) {
      throw new IllegalArgumentException(
          "a group window holds 10 or 12 cycles, not "
              + cycles
              + "; use the one-cycle harmonics otherwise");
    }
    int limit = highestOrder(window, cycles);
    if (highestOrder < 1 || highestOrder > limit) {
      throw new IllegalArgumentException("order " + highestOrder + " is outside 1 to " + limit);
    }
    int bins = cycles * highestOrder + cycles - 2;
    int most = OneCycleDft.highestOrder(window);
    CycleSpectrum spectrum = OneCycleDft.of(samples, window, Math.min(bins, most));
    double[] square = new double[bins + 1];
    for (int k = 1; k <= spectrum.highestOrder(); k++) {
      square[k] = Math.pow(spectrum.magnitude(k), 2);
    }
    for (int k = spectrum.highestOrder() + 1; k <= bins; k++) {
      square[k] = Double.NaN;
    }
    return new HarmonicSubgroups(cycles, highestOrder, square);
  }

  /** Highest order whose whole group lies below half the sampling rate; 40 at most. */
  public static int highestOrder(SampleWindow window, int cycles) {
    int bins = OneCycleDft.highestOrder(window);
    return Math.min(Harmonics.HIGHEST_ORDER, (bins - cycles / 2) / cycles);
  }

  public int highestOrder() {
    return highestOrder;
  }

  /** RMS of the line at an order. */
  public double line(int order) {
    return Math.sqrt(square[at(order)]);
  }

  /** RMS of the group of an order. */
  public double group(int order) {
    int centre = at(order);
    int half = cycles / 2;
    double sum = (square[centre - half] + square[centre + half]) / 2;
    for (int k = 1 - half; k < half; k++) {
      sum += square[centre + k];
    }
    return Math.sqrt(sum);
  }

  /** RMS of the subgroup of an order. */
  public double subgroup(int order) {
    int centre = at(order);
    return Math.sqrt(square[centre - 1] + square[centre] + square[centre + 1]);
  }

  /**
   * RMS of the interharmonic centred subgroup between an order and the next; NaN where it reaches
   * beyond half the sampling rate.
   */
  public double interharmonicSubgroup(int order) {
    int centre = at(order);
    double sum = 0;
    for (int k = 2; k <= cycles - 2; k++) {
      sum += square[centre + k];
    }
    return Math.sqrt(sum);
  }

  /** Distortion from lines (THD). */
  public double lineDistortion() {
    return distortion(this::line);
  }

  /** Distortion from groups (THDG). */
  public double groupDistortion() {
    return distortion(this::group);
  }

  /** Distortion from subgroups (THDS). */
  public double subgroupDistortion() {
    return distortion(this::subgroup);
  }

  private double distortion(IntToDoubleFunction of) {
    double sum = 0;
    for (int h = 2; h <= highestOrder; h++) {
      sum += Math.pow(of.applyAsDouble(h), 2);
    }
    double fundamental = of.applyAsDouble(1);
    return fundamental > 0 ? Math.sqrt(sum) / fundamental : Double.NaN;
  }

  private int at(int order) {
    if (order < 1 || order > highestOrder) {
      throw new IllegalArgumentException("order " + order + " is outside 1 to " + highestOrder);
    }
    return cycles * order;
  }
}
