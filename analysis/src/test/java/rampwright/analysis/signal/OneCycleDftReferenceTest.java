package rampwright.analysis.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.hipparchus.complex.Complex;
import org.hipparchus.transform.DftNormalization;
import org.hipparchus.transform.FastFourierTransformer;
import org.hipparchus.transform.TransformType;
import org.junit.jupiter.api.Test;
import rampwright.analysis.trace.Samples;

/** The one-cycle DFT against the FFT of a general-purpose library and against closed forms. */
class OneCycleDftReferenceTest {
  private static final int SEED = 20260314;

  /** 256 products of numbers near 1, summed: 256 x 1.1e-16 and as much again in the kernel. */
  private static final double ROUNDING = 1e-12;

  @Test
  void wholeSampleCycleIsTheFftOfItsSamples() {
    // Source of the oracle: Hipparchus FastFourierTransformer, unscaled forward transform.
    Random random = new Random(SEED);
    double[] cycle = random.doubles(256, -1, 1).toArray();
    Samples samples = repeated(cycle, 3);
    Complex[] fft =
        new FastFourierTransformer(DftNormalization.STANDARD)
            .transform(cycle, TransformType.FORWARD);
    CycleSpectrum spectrum = OneCycleDft.of(samples, new SampleWindow(256, 512), 127);
    assertThat(spectrum.mean()).isCloseTo(fft[0].getRealPart() / 256, within(ROUNDING));
    for (int h = 1; h <= 127; h++) {
      Complex expected = fft[h].multiply(Math.sqrt(2) / 256);
      assertThat(spectrum.phasor(h).subtract(expected).norm()).isLessThan(ROUNDING);
    }
  }

  @Test
  void parsevalHoldsOnWholeSampleCycles() {
    // Odd length, so that no part sits at half the sampling rate, where a phasor is not defined.
    double[] cycle = new Random(SEED).doubles(201, -1, 1).toArray();
    CycleSpectrum spectrum = OneCycleDft.of(repeated(cycle, 3), new SampleWindow(201, 402), 100);
    double sum = spectrum.mean() * spectrum.mean();
    for (int h = 1; h <= 100; h++) {
      sum += Math.pow(spectrum.magnitude(h), 2);
    }
    assertThat(spectrum.rms() * spectrum.rms()).isCloseTo(sum, within(ROUNDING));
  }

  @Test
  void fractionalCycleKeepsTheStatedBound() {
    // Closed form: x = sqrt(2) cos(m w t + p) has phasor exp(j(p + m w from)), RMS 1, mean 0.
    Random random = new Random(SEED);
    double worst = 0;
    for (int run = 0; run < 400; run++) {
      double length = 16 + 200 * random.nextDouble();
      double from = 3 + random.nextDouble();
      int m = 1 + random.nextInt((int) (length / 4));
      double phase = 2 * Math.PI * random.nextDouble();
      double[] x = new double[(int) (from + length) + 5];
      for (int k = 0; k < x.length; k++) {
        x[k] = Math.sqrt(2) * Math.cos(2 * Math.PI * m * (k - from) / length + phase);
      }
      SampleWindow window = new SampleWindow(from, from + length);
      int orders = OneCycleDft.highestOrder(window);
      CycleSpectrum spectrum = OneCycleDft.of(Samples.of(x), window, orders);
      double bound = Math.pow(2 * Math.PI * m / length, 4) / (8 * length);
      worst = Math.max(worst, Math.abs(spectrum.mean()) / bound);
      for (int h = 1; h <= orders; h++) {
        Complex expected = h == m ? new Complex(Math.cos(phase), Math.sin(phase)) : Complex.ZERO;
        worst = Math.max(worst, spectrum.phasor(h).subtract(expected).norm() / bound);
      }
      if (m <= length / 8) {
        double squareBound = 16 * bound;
        worst = Math.max(worst, Math.abs(Math.pow(spectrum.rms(), 2) - 1) / squareBound);
      }
    }
    assertThat(worst).isLessThan(1);
  }

  static Samples repeated(double[] cycle, int times) {
    double[] all = new double[cycle.length * times];
    for (int k = 0; k < all.length; k++) {
      all[k] = cycle[k % cycle.length];
    }
    return Samples.of(all);
  }
}
