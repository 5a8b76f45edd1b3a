package rampwright.acquisition.file;

import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.EvenTime;
import rampwright.analysis.trace.Samples;

/**
 * Whether time stamps are those of even sampling, looked at through their rounding.
 *
 * <p>Stamps rounded (or cut) to a resolution q come from an even clock start + i step exactly when
 * they lie in a strip of that slope no higher than q. The height of the strip is a convex function
 * of the slope, so that its least is found by trisection. Every stamp is looked at, not a choice of
 * them.
 */
final class CsvEvenFit {
  /** A jitter of less than this part of a step is below what any figure can tell. */
  private static final double NEGLIGIBLE = 1e-6;

  private static final int TRISECTIONS = 60;
  private static final int PIECE = 8192;

  private final Samples stampsS;
  private final double[] piece = new double[PIECE];
  private double lowest;
  private double highest;

  private CsvEvenFit(Samples stampsS) {
    this.stampsS = stampsS;
  }

  /**
   * The even time base that all stamps agree with.
   *
   * @param stampsS not decreasing, at least 2, s
   * @param resolutionS rounding of the stamps, s
   * @param repeats whether stamps repeat; where they do not, a strip of more than half a step would
   *     hide a missing row and is not accepted
   * @return null when there is none
   */
  static @Nullable EvenTime of(Samples stampsS, double resolutionS, boolean repeats) {
    int size = stampsS.size();
    double first = stampsS.at(0);
    double last = stampsS.at(size - 1);
    double step = (last - first) / (size - 1);
    if (!(step > 0)) {
      return null;
    }
    double allowed = Math.max(resolutionS, NEGLIGIBLE * step);
    if (!repeats) {
      allowed = Math.min(allowed, step / 2);
    }
    double strip = allowed * (1 + 1e-9) + 8 * Math.ulp(Math.max(Math.abs(first), Math.abs(last)));
    CsvEvenFit fit = new CsvEvenFit(stampsS);
    double height = fit.height(step);
    // The strip through both ends is at most twice as high as the best one.
    if (height > 2 * strip) {
      return null;
    }
    double exact = 1e-9 * step + 8 * Math.ulp(Math.max(Math.abs(first), Math.abs(last)));
    if (height <= exact) {
      double plain = roundStep(step, exact / (size - 1));
      return fit.height(plain) <= 2 * exact
          ? fit.base(plain, allowed)
          : new EvenTime(first, step, size);
    }
    double freedom = strip / (size - 1);
    double round = roundStep(step, freedom);
    if (fit.height(round) <= strip) {
      return fit.base(round, allowed);
    }
    if (height > strip) {
      step = fit.best(step - 2 * freedom, step + 2 * freedom);
    }
    return fit.height(step) <= strip ? fit.base(step, allowed) : null;
  }

  private EvenTime base(double stepS, double allowed) {
    double first = stampsS.at(0);
    boolean firstWillDo = Math.max(Math.abs(lowest), Math.abs(highest)) <= allowed;
    return new EvenTime(
        firstWillDo ? first : first + (lowest + highest) / 2, stepS, stampsS.size());
  }

  private double best(double from, double to) {
    double low = from;
    double high = to;
    for (int i = 0; i < TRISECTIONS && high - low > Math.ulp(high); i++) {
      double a = low + (high - low) / 3;
      double b = high - (high - low) / 3;
      if (height(a) <= height(b)) {
        high = b;
      } else {
        low = a;
      }
    }
    return (low + high) / 2;
  }

  /** Height of the strip of that slope that holds all stamps; leaves its bounds in the fields. */
  private double height(double stepS) {
    double first = stampsS.at(0);
    double low = 0;
    double high = 0;
    int size = stampsS.size();
    for (int from = 0; from < size; from += PIECE) {
      int count = Math.min(PIECE, size - from);
      stampsS.copy(from, piece, 0, count);
      for (int i = 0; i < count; i++) {
        double away = piece[i] - first - (from + i) * stepS;
        low = Math.min(low, away);
        high = Math.max(high, away);
      }
    }
    lowest = low;
    highest = high;
    return high - low;
  }

  /**
   * A whole rate in Hz or a short decimal step within {@code freedom} of the step, else the step.
   */
  private static double roundStep(double stepS, double freedom) {
    double rate = Math.rint(1 / stepS);
    if (rate >= 1 && Math.abs(1 / rate - stepS) <= freedom) {
      return 1 / rate;
    }
    for (double scale = 1; scale <= 1e12; scale *= 10) {
      double round = Math.rint(stepS * scale) / scale;
      if (round > 0 && Math.abs(round - stepS) <= freedom) {
        return round;
      }
    }
    return stepS;
  }
}
