package rampwright.analysis.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import rampwright.analysis.trace.Samples;

/**
 * RMS and harmonics of phase-controlled waveforms ({@link PhaseControl}) against formulas and
 * tables.
 *
 * <p>Sources: star with open neutral, RMS for firing angles up to 60 degrees: Rashid, Power
 * Electronics, Eq 11.19 (second-hand); the other two ranges from memory, confirmed by a second
 * switching simulation. Harmonic table: computed by that simulation, no published one was found.
 * Single pair: standard text-book results, cited at each test.
 */
class PhaseControlReferenceTest {
  private static final int FINE = 3600;

  /**
   * Edges midway between samples: an error of second order, (2 pi/3600)^2, and the text's digits.
   */
  private static final double FINE_ERROR = 1e-5;

  @ParameterizedTest
  @ValueSource(doubles = {0, 15, 30, 45, 60, 75, 90, 105, 120, 135, 150})
  void starRmsIsTheFormula(double deg) {
    for (Samples phase : PhaseControl.star(deg, FINE, -1)) {
      assertThat(cycle(phase, FINE, 0).rms()).isCloseTo(starRms(deg), within(FINE_ERROR));
    }
  }

  @ParameterizedTest
  @CsvSource({
    "30, 0.9642, 10.9, 9.0, 5.0, 3.5",
    "45, 0.8963, 19.8, 12.6, 6.4, 6.3",
    "60, 0.7925, 26.1, 13.0, 10.4, 7.5",
    "75, 0.6491, 31.9, 15.9, 12.7, 9.1",
    "90, 0.4632, 44.6, 22.3, 17.9, 12.8",
    "105, 0.2749, 64.7, 40.9, 20.9, 20.7",
    "120, 0.1272, 82.9, 68.3, 37.5, 26.8",
  })
  void starHarmonics(double deg, double v1, double h5, double h7, double h11, double h13) {
    // The table's simulation is off by up to 4e-4 in RMS: 4e-4 absolute of the fundamental, and
    // that share on top of half the last digit printed for the percentages.
    CycleSpectrum spectrum = cycle(PhaseControl.star(deg, FINE, -1)[1], FINE, 40);
    assertThat(spectrum.magnitude(1)).isCloseTo(v1, within(4e-4));
    double percent = 0.05 + 100 * 4e-4 / v1;
    assertThat(100 * Harmonics.share(spectrum, 5)).isCloseTo(h5, within(percent));
    assertThat(100 * Harmonics.share(spectrum, 7)).isCloseTo(h7, within(percent));
    assertThat(100 * Harmonics.share(spectrum, 11)).isCloseTo(h11, within(percent));
    assertThat(100 * Harmonics.share(spectrum, 13)).isCloseTo(h13, within(percent));
    // Half-wave symmetry and an open neutral: no mean, no even, no triplen orders.
    assertThat(spectrum.mean()).isCloseTo(0, within(1e-12));
    assertThat(Harmonics.evenShare(spectrum)).isLessThan(1e-9);
    for (int h = 3; h <= 39; h += 6) {
      assertThat(Harmonics.share(spectrum, h)).isLessThan(1e-9);
    }
  }

  @Test
  void starWorkedExample() {
    // Rashid, Power Electronics, example 11.3 (second-hand): 208 V, 10 ohm per phase, 60 degrees:
    // 100.957 V, 10.0957 A, 3057.68 W, 3637.13 VA, power factor 0.84068.
    double phaseV = 208 / Math.sqrt(3);
    double rms = phaseV * cycle(PhaseControl.star(60, FINE, -1)[0], FINE, 0).rms();
    assertThat(rms).isCloseTo(100.957, within(2e-3));
    double powerW = 3 * rms * rms / 10;
    assertThat(powerW).isCloseTo(3057.68, within(0.1));
    assertThat(powerW / (3 * phaseV * rms / 10)).isCloseTo(0.84068, within(1.5e-5));
  }

  @ParameterizedTest
  @ValueSource(doubles = {30, 60, 90, 120})
  void starAtOrdinaryRates(double deg) {
    // 10 kHz and 50 Hz: a firing edge lands anywhere in a sample. Four or more edges a cycle of up
    // to 1.2 times the peak, each dated to half a sample of 200: 2 % of the RMS at most, 0.5 %
    // where firing angles lie midway between samples as here.
    CycleSpectrum spectrum = cycle(PhaseControl.star(deg, 200, -1)[0], 200, 40);
    assertThat(spectrum.rms()).isCloseTo(starRms(deg), within(0.02 * starRms(deg)));
    assertThat(Harmonics.evenShare(spectrum)).isLessThan(0.005);
  }

  @ParameterizedTest
  @CsvSource({"45, 230, 219.304", "120, 208, 91.968"})
  void singlePairRms(double deg, double supplyV, double rmsV) {
    // V = Vs sqrt((pi - a + sin(2 a)/2)/pi). Bimbhra, Power Electronics, example 9.2: 230 V, 45
    // degrees, 219.304 V; Rashid, example 11.4: 208 V, 120 degrees, 91.968 V (both second-hand).
    double rms = supplyV * cycle(PhaseControl.single(deg, FINE, true), FINE, 0).rms();
    assertThat(rms).isCloseTo(rmsV, within(5e-4 + FINE_ERROR * supplyV));
  }

  @Test
  void singlePairAtNinetyDegrees() {
    // Derived: RMS 1/sqrt(2); of the full fundamental order 1 is sqrt(1/4 + 1/pi^2), order 3
    // 1/pi, order 5 1/(3 pi).
    CycleSpectrum spectrum = cycle(PhaseControl.single(90, FINE, true), FINE, 40);
    assertThat(spectrum.rms()).isCloseTo(Math.sqrt(0.5), within(FINE_ERROR));
    assertThat(spectrum.magnitude(1))
        .isCloseTo(Math.sqrt(0.25 + 1 / (Math.PI * Math.PI)), within(FINE_ERROR));
    assertThat(spectrum.magnitude(3)).isCloseTo(1 / Math.PI, within(FINE_ERROR));
    assertThat(spectrum.magnitude(5)).isCloseTo(1 / (3 * Math.PI), within(FINE_ERROR));
    assertThat(spectrum.mean()).isCloseTo(0, within(1e-12));
    assertThat(Harmonics.evenShare(spectrum)).isLessThan(1e-9);
  }

  @Test
  void oneThyristorOfASinglePairDead() {
    // Derived: 60 degrees, unit amplitude: mean 0.238732 = (1 + cos 60)/(2 pi), orders 1 to 5.
    CycleSpectrum spectrum = cycle(PhaseControl.single(60, FINE, false), FINE, 40);
    double amplitude = Math.sqrt(2);
    assertThat(spectrum.mean() / amplitude).isCloseTo(0.238732, within(FINE_ERROR));
    double[] expected = {0.4196, 0.2757, 0.1194, 0.0551, 0.0689};
    for (int h = 1; h <= 5; h++) {
      // Peak of the order over the amplitude = RMS phasor here; four digits given.
      assertThat(spectrum.magnitude(h)).isCloseTo(expected[h - 1], within(6e-5));
    }
    assertThat(Harmonics.evenShare(spectrum)).isGreaterThan(0.05);
    assertThat(Harmonics.meanShare(spectrum)).isGreaterThan(0.10);
  }

  @Test
  void oneThyristorReplacedByADiode() {
    // Bimbhra, example 9.1 (second-hand): 230 V, 20 ohm, 45 degrees in the positive half wave
    // only: mean current -0.7581 A, RMS voltage 224.716 V.
    double[] x = PhaseControl.single(45, FINE, true).toArray();
    double[] full = PhaseControl.single(0, FINE, true).toArray();
    for (int k = 0; k < x.length; k++) {
      x[k] = 230 * (full[k] < 0 ? full[k] : x[k]);
    }
    CycleSpectrum spectrum = cycle(Samples.of(x), FINE, 2);
    assertThat(spectrum.mean() / 20).isCloseTo(-0.7581, within(6e-5));
    assertThat(spectrum.rms()).isCloseTo(224.716, within(5e-4 + 230 * FINE_ERROR));
  }

  @ParameterizedTest
  @ValueSource(doubles = {30, 60, 90})
  void deadThyristorInAStarShowsMeanAndEvenOrders(double deg) {
    // Rule: losing half-wave symmetry gives d.c. and even orders. Above 5 % in the faulty phase.
    CycleSpectrum spectrum = cycle(PhaseControl.star(deg, FINE, 0)[0], FINE, 40);
    assertThat(Harmonics.evenShare(spectrum)).isGreaterThan(0.05);
    assertThat(Harmonics.meanShare(spectrum)).isGreaterThan(0.05);
  }

  /** V/Vphase = sqrt(6 q/pi). */
  private static double starRms(double deg) {
    double a = Math.toRadians(deg);
    double q;
    if (deg < 60) {
      q = Math.PI / 6 - a / 4 + Math.sin(2 * a) / 8;
    } else if (deg < 90) {
      q = Math.PI / 12 + 3 * Math.sin(2 * a) / 16 + Math.sqrt(3) * Math.cos(2 * a) / 16;
    } else {
      q = 5 * Math.PI / 24 - a / 4 + Math.sin(2 * a) / 16 + Math.sqrt(3) * Math.cos(2 * a) / 16;
    }
    return Math.sqrt(Math.max(0, 6 * q / Math.PI));
  }

  private static CycleSpectrum cycle(Samples samples, int perCycle, int orders) {
    return OneCycleDft.of(samples, new SampleWindow(2 * perCycle, 3 * perCycle), orders);
  }
}
