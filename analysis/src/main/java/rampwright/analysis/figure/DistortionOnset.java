package rampwright.analysis.figure;

import rampwright.analysis.signal.CycleSpectrum;
import rampwright.analysis.signal.Cycles;
import rampwright.analysis.signal.Noise;
import rampwright.analysis.signal.OneCycleDft;
import rampwright.analysis.signal.SampleWindow;
import rampwright.analysis.trace.EvenTime;
import rampwright.analysis.trace.Samples;

/**
 * When a run current begins to be distorted.
 *
 * <p>The 5th and 7th harmonic, which phase control of a three-wire motor makes first, are followed
 * a cycle at a time; the onset is where they leave the run's level for good.
 */
final class DistortionOnset {
  private static final int[] ORDERS = {5, 7};
  private static final double LONGEST_S = 10;
  private static final double TIMES_SPREAD = 6;

  private DistortionOnset() {}

  /** The onset in [fromS, untilS]; {@code untilS} when none is seen before it. */
  static double before(Readings r, Cycles cycles, double fromS, double untilS) {
    if (!(r.trace.time() instanceof EvenTime even)
        || even.stepS() * ORDERS[ORDERS.length - 1] * 2.5 > cycles.cycleS()) {
      return untilS;
    }
    double[] edge = cycles.boundaryS();
    int last = 0;
    while (last + 2 < edge.length && edge[last + 2] <= untilS) {
      last++;
    }
    int first = last;
    while (first > 0 && edge[first - 1] > Math.max(fromS, untilS - LONGEST_S)) {
      first--;
    }
    int n = last - first;
    if (n < 20) {
      return untilS;
    }
    double[] distortion = new double[n];
    for (int k = 0; k < n; k++) {
      distortion[k] = distortion(r, even, edge[first + k], edge[first + k + 2]);
    }
    // The quietest tenth of the stretch stands for the undistorted run.
    int block = Math.max(10, n / 10);
    double level = Double.POSITIVE_INFINITY;
    double spread = 0;
    for (int k = 0; k + block <= n; k += Math.max(1, block / 2)) {
      double median = Noise.median(distortion, k, k + block);
      if (median < level) {
        level = median;
        spread = Noise.sigma(distortion, k, k + block);
      }
    }
    double limit = level + TIMES_SPREAD * spread + 0.1 * level;
    int k = n;
    while (k > 0 && distortion[k - 1] > limit) {
      k--;
    }
    return k >= n ? untilS : edge[first + k + 1];
  }

  private static double distortion(Readings r, EvenTime even, double fromS, double toS) {
    SampleWindow window =
        new SampleWindow(
            (fromS - even.startS()) / even.stepS(), (toS - even.startS()) / even.stepS());
    double sum = 0;
    OneCycleDft dft = new OneCycleDft(window, even.size(), ORDERS[ORDERS.length - 1]);
    for (int p = 0; p < r.phases.size(); p++) {
      Samples samples = r.trace.channel(r.phases.get(p));
      if (samples != null) {
        CycleSpectrum spectrum = dft.of(samples);
        for (int order : ORDERS) {
          sum += spectrum.magnitude(order) * spectrum.magnitude(order);
        }
      }
    }
    return Math.sqrt(sum);
  }
}
