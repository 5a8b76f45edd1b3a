package rampwright.analysis.signal;

/**
 * Line-to-line flux linkage of a stretch of waveform, and the same less its centred mean.
 *
 * <p>Formula: F = integral (v - R (i_a - i_b)) dt from 0 at the first sample. Each step integrates
 * the cubic through the four samples around it (gain 1 - 11/720 (2 pi/L)^4 at L samples a cycle, no
 * phase shift); the first and last step the straight line.
 *
 * <p>A sample without good value counts as 0: what that adds afterwards is constant, and the mean
 * takes it off.
 */
final class FluxLinkage {
  private final double[] flux;
  private final double[] integral;

  FluxLinkage(double[] v, double[] ahead, double[] behind, double ohm, double stepS) {
    int count = v.length;
    double[] u = new double[count];
    for (int k = 0; k < count; k++) {
      double value = v[k] - ohm * (ahead[k] - behind[k]);
      u[k] = Double.isNaN(value) ? 0 : value;
    }
    flux = new double[count];
    integral = new double[count];
    for (int k = 1; k < count; k++) {
      double step = (u[k - 1] + u[k]) / 2;
      if (k >= 2 && k + 1 < count) {
        step = (13 * (u[k - 1] + u[k]) - u[k - 2] - u[k + 1]) / 24;
      }
      flux[k] = flux[k - 1] + step * stepS;
      integral[k] = integral[k - 1] + (flux[k - 1] + flux[k]) / 2;
    }
  }

  /** Flux at a sample, from 0 at the first. */
  double at(int k) {
    return flux[k];
  }

  /** Flux at a sample less the mean over {@code half} samples on either side. */
  double withoutMean(int k, double half) {
    return flux[k] - (integralTo(k + half) - integralTo(k - half)) / (2 * half);
  }

  private double integralTo(double position) {
    int k = Math.min((int) position, flux.length - 2);
    double f = position - k;
    return integral[k] + f * (flux[k] + f * (flux[k + 1] - flux[k]) / 2);
  }
}
