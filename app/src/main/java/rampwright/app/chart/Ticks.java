package rampwright.app.chart;

import java.util.ArrayList;
import java.util.List;

/** Ticks of the second scale: multiples of 1, 2 or 5 times a power of ten. */
final class Ticks {
  private Ticks() {}

  /** Smallest clean step that gives no more than {@code most} ticks. */
  static double step(double low, double high, double most) {
    double rough = (high - low) / Math.max(1, most);
    double power = Math.pow(10, Math.floor(Math.log10(rough)));
    for (double factor : new double[] {1, 2, 5}) {
      if (factor * power >= rough) {
        return factor * power;
      }
    }
    return 10 * power;
  }

  static List<Double> of(double low, double high, double step) {
    List<Double> ticks = new ArrayList<>();
    if (!(step > 0) || !((high - low) / step < 200)) {
      return ticks;
    }
    for (double n = Math.ceil(low / step); n * step <= high; n++) {
      ticks.add(n * step);
    }
    return ticks;
  }
}
