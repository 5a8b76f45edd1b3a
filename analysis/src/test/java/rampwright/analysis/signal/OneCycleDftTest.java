package rampwright.analysis.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import rampwright.analysis.trace.Samples;

/** Closed forms of mean and RMS, and behaviour at edges. */
class OneCycleDftTest {
  private static final double TWO_PI = 2 * Math.PI;

  @ParameterizedTest
  @ValueSource(doubles = {200, 199.37, 84.1667})
  void sineAndDirectPart(double length) {
    // RMS sqrt(A^2/2 + D^2), mean D. Bound of the class for A = 10: below 1e-6 of 50.
    Samples x = samples(length, t -> 3 + 10 * Math.sin(TWO_PI * t + 0.7));
    CycleSpectrum spectrum = OneCycleDft.of(x, window(length), 1);
    double bound = length == 200 ? 1e-12 : 1e-5;
    assertThat(spectrum.mean()).isCloseTo(3, within(bound));
    assertThat(spectrum.rms()).isCloseTo(Math.sqrt(59), within(bound));
    assertThat(spectrum.magnitude(1)).isCloseTo(10 / Math.sqrt(2), within(bound));
  }

  @ParameterizedTest
  @ValueSource(doubles = {200, 199.37, 84.1667})
  void halfWaveRectifiedSine(double length) {
    // RMS A/2, mean A/pi. Two kinks of slope 2 pi A/L a sample: each at most 1/8 of that in the
    // sum of L samples, 2 x 2 pi/(8 L^2) of A.
    Samples x = samples(length, t -> Math.max(0, Math.sin(TWO_PI * t)));
    CycleSpectrum spectrum = OneCycleDft.of(x, window(length), 3);
    double bound = TWO_PI / (4 * length * length);
    assertThat(spectrum.mean()).isCloseTo(1 / Math.PI, within(bound));
    assertThat(spectrum.rms()).isCloseTo(0.5, within(bound));
    // Orders 2: 2 A/(3 pi) peak; 3: none.
    assertThat(spectrum.magnitude(2))
        .isCloseTo(2 / (3 * Math.PI) / Math.sqrt(2), within(2 * bound));
    assertThat(spectrum.magnitude(3)).isCloseTo(0, within(2 * bound));
  }

  @Test
  void rampHasRmsOverRootThree() {
    // 0 to A over the window, and on with the same slope: a cubic takes its square exactly.
    double[] x = new double[400];
    for (int k = 0; k < x.length; k++) {
      x[k] = (k - 50.25) / 200;
    }
    CycleSpectrum spectrum = OneCycleDft.of(Samples.of(x), new SampleWindow(50.25, 250.25), 0);
    assertThat(spectrum.rms()).isCloseTo(1 / Math.sqrt(3), within(1e-14));
    assertThat(spectrum.mean()).isCloseTo(0.5, within(1e-14));
  }

  @Test
  void errorFallsWithTheFifthPowerOfTheStep() {
    // The stated bound is (2 pi m/L)^4/(8 L). Halving the step at the same offsets in the cycle.
    double coarse = leak(50.5);
    double fine = leak(101);
    assertThat(coarse / fine).isGreaterThan(20);
  }

  @Test
  void everythingScales() {
    Samples x = samples(84.1667, t -> Math.sin(TWO_PI * t) + 0.2 * Math.cos(3 * TWO_PI * t));
    double[] scaled = x.toArray();
    for (int k = 0; k < scaled.length; k++) {
      scaled[k] *= -4;
    }
    CycleSpectrum one = OneCycleDft.of(x, window(84.1667), 5);
    CycleSpectrum four = OneCycleDft.of(Samples.of(scaled), window(84.1667), 5);
    assertThat(four.rms()).isEqualTo(4 * one.rms());
    for (int h = 1; h <= 5; h++) {
      assertThat(four.phasor(h)).isEqualTo(one.phasor(h).multiply(-4));
    }
  }

  @Test
  void windowShiftedByATenthOfACycleTurnsThePhasors() {
    Samples x = samples(200, t -> Math.sin(TWO_PI * t) + 0.3 * Math.sin(5 * TWO_PI * t));
    CycleSpectrum one = OneCycleDft.of(x, new SampleWindow(200, 400), 5);
    CycleSpectrum two = OneCycleDft.of(x, new SampleWindow(220, 420), 5);
    double turned1 = two.phasor(1).divide(one.phasor(1)).getArgument();
    double turned5 = two.phasor(5).divide(one.phasor(5)).getArgument();
    assertThat(turned1).isCloseTo(TWO_PI / 10, within(1e-12));
    assertThat(Math.abs(turned5)).isCloseTo(Math.PI, within(1e-12));
  }

  @Test
  void windowAtTheRecordsEndsStillServes() {
    // The four samples nearest an end serve where the record has no more: third-order less exact.
    double[] x = samples(200, t -> Math.sin(TWO_PI * t + 0.4)).toArray();
    double[] cycle = Arrays.copyOf(x, 201);
    CycleSpectrum spectrum = OneCycleDft.of(Samples.of(cycle), new SampleWindow(0, 200), 99);
    assertThat(spectrum.rms()).isCloseTo(Math.sqrt(0.5), within(1e-7));
    assertThat(Harmonics.totalDistortion(spectrum)).isLessThan(1e-6);
  }

  @Test
  void sampleWithoutValueMakesTheCycleUnknown() {
    double[] x = samples(200, t -> Math.sin(TWO_PI * t)).toArray();
    x[300] = Double.NaN;
    CycleSpectrum hit = OneCycleDft.of(Samples.of(x), new SampleWindow(200, 400), 3);
    assertThat(hit.rms()).isNaN();
    assertThat(hit.mean()).isNaN();
    assertThat(hit.magnitude(1)).isNaN();
    assertThat(hit.distortionRms()).isNaN();
    assertThat(Harmonics.totalDistortion(hit)).isNaN();
    CycleSpectrum missed = OneCycleDft.of(Samples.of(x), new SampleWindow(310.5, 510.5), 3);
    assertThat(missed.rms()).isCloseTo(Math.sqrt(0.5), within(1e-7));
  }

  @Test
  void silenceIsZeroAndItsRatiosAreUnknown() {
    double[] x = new double[300];
    x[281] = 5;
    CycleSpectrum spectrum = OneCycleDft.of(Samples.of(x), new SampleWindow(80, 280), 3);
    assertThat(spectrum.rms()).isZero();
    CycleSpectrum silent =
        OneCycleDft.of(Samples.of(new double[300]), new SampleWindow(10, 210), 3);
    assertThat(Harmonics.totalDistortion(silent)).isNaN();
    assertThat(Harmonics.meanShare(silent)).isNaN();
  }

  @Test
  void badWindowsAreRefusedWithTheirNumbers() {
    assertThatThrownBy(() -> new SampleWindow(-1, 5)).hasMessageContaining("from -1.0");
    assertThatThrownBy(() -> new SampleWindow(5, 5)).hasMessageContaining("from < to");
    assertThatThrownBy(() -> new SampleWindow(0, Double.NaN)).hasMessageContaining("NaN");
    assertThatThrownBy(() -> new OneCycleDft(new SampleWindow(0, 200), 200, 1))
        .hasMessageContaining("200 samples");
    assertThatThrownBy(() -> new OneCycleDft(new SampleWindow(0, 3), 200, 0))
        .hasMessageContaining("at least 4");
    assertThatThrownBy(() -> new OneCycleDft(new SampleWindow(0, 20), 200, 10))
        .hasMessageContaining("order 10 is outside 0 to 9");
    OneCycleDft dft = new OneCycleDft(new SampleWindow(0, 20), 200, 2);
    assertThatThrownBy(() -> dft.of(Samples.of(1, 2, 3))).hasMessageContaining("3 samples");
    assertThatThrownBy(() -> dft.of(Samples.of(new double[200])).magnitude(3))
        .hasMessageContaining("order 3 is outside 1 to 2");
  }

  private static double leak(double length) {
    double worst = 0;
    for (double phase = 0; phase < 6; phase += 0.5) {
      double at = phase;
      Samples x = samples(length, t -> Math.sin(TWO_PI * t + at));
      CycleSpectrum spectrum = OneCycleDft.of(x, window(length), 10);
      for (int h = 2; h <= 10; h++) {
        worst = Math.max(worst, spectrum.magnitude(h));
      }
    }
    return worst;
  }

  private static SampleWindow window(double length) {
    return new SampleWindow(length, 2 * length);
  }

  private static Samples samples(double length, DoubleUnaryOperator ofCycle) {
    double[] x = new double[(int) (4 * length)];
    for (int k = 0; k < x.length; k++) {
      x[k] = ofCycle.applyAsDouble(k / length);
    }
    return Samples.owning(x);
  }
}
