package rampwright.exam.wave;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rampwright.exam.plant.TrueLoad;

/** The waveform plant against another solver, the phase-control table, and symmetry. */
class BridgeReferenceTest {
  private static final TrueLoad NONE = new TrueLoad("none", 0, 188.5, 0, 2, 0, .05, 0, 1, 0);

  /**
   * Direct starts without load of the Krause machines (Analysis of Electric Machinery,
   * induction-machine table, 60 Hz, 4 poles), switched at the peak of phase 1. The figures are of a
   * full two-axis model solved by an adaptive Runge-Kutta method at 1e-8: printed to four digits.
   * Peaks: 0.1 %, since a peak read at a solver's own steps may miss the top by a few parts in ten
   * thousand.
   */
  @ParameterizedTest
  @CsvSource({
    "220, .435, .754, 26.13, .816, .089, 0.3341, 97.09, 132.06, 1716.7, 0.6",
    "460, .087, .302, 13.08, .228, 1.662, 0.5085, 607.9, 1654.5, 33372, 0.9",
    "2300, .262, 1.206, 54.02, .187, 11.06, 1.3879, 854.4, 5066, 216180, 2.6",
    "132, .435, .754, 26.13, .816, .089, 0.9097, 57.04, 48.16, 1624.4, 2.0"
  })
  void directStartsOfKrauseMachines(
      double volt,
      double rs,
      double xl,
      double xm,
      double rr,
      double inertia,
      double timeS,
      double peakA,
      double peakNm,
      double heatJ,
      double longS) {
    double w = 2 * Math.PI * 60;
    WaveMachine machine =
        new WaveMachine(rs, xl / w, xm / w, new double[] {rr}, new double[] {xl / w}, 2, inertia);
    Bridge bridge = new Bridge(machine, WaveSupply.steady(volt, 60, 0, 0).from(Math.PI / 2), NONE);
    double peak = 0;
    double torque = 0;
    double reached = Double.NaN;
    while (bridge.time() < longS) {
      bridge.step(20e-6, Gates.CONTACTOR);
      peak = Math.max(peak, Math.abs(bridge.current(0)));
      torque = Math.max(torque, bridge.torqueNm());
      if (Double.isNaN(reached) && bridge.speedRadPerS() >= 0.95 * w / 2) {
        reached = bridge.time();
      }
    }
    assertThat(reached).as("time to 95 %%").isCloseTo(timeS, within(2e-4));
    assertThat(peak).as("peak current").isCloseTo(peakA, within(1e-3 * peakA));
    assertThat(torque).as("peak torque").isCloseTo(peakNm, within(1e-3 * peakNm));
    // the record ends while a last swing dies out: 0.2 %
    assertThat(bridge.rotorLossJ()).as("rotor heat").isCloseTo(heatJ, within(2e-3 * heatJ));
  }

  /**
   * Three-phase control of a star of resistors without neutral: RMS of the phase voltage against
   * firing angle (first branch: Rashid, Power Electronics, equation 11.19; the others from memory,
   * agreeing with a switching simulation), fundamental and fifth harmonic (computed). The little
   * inductance that keeps the model well posed (16 us) shifts the edges by less than 0.3 degrees.
   */
  @ParameterizedTest
  @CsvSource({
    "0, 1.0000, 1.0000, 0",
    "30, .9781, .9642, 10.9",
    "45, .9294, .8963, 19.8",
    "60, .8407, .7925, 26.1",
    "75, .7071, .6491, 31.9",
    "90, .5415, .4632, 44.6",
    "105, .3691, .2749, 64.7",
    "120, .2080, .1272, 82.9",
    "150, 0, 0, -1"
  })
  void phaseControlOfResistors(double alphaDeg, double rms, double fundamental, double fifthPct) {
    Spectrum s = spectrum(Gates.fixed(Math.toRadians(alphaDeg)), -1);
    double one = 230 / 10.0;
    assertThat(s.rms / one).isCloseTo(rms, within(0.004));
    assertThat(s.harmonic[1] / one).isCloseTo(fundamental, within(0.004));
    if (fifthPct >= 0) {
      assertThat(100 * s.harmonic[5] / s.harmonic[1]).isCloseTo(fifthPct, within(0.6));
      assertThat(s.harmonic[0]).as("d.c.").isLessThan(2e-3 * one);
      assertThat(s.harmonic[2]).as("second").isLessThan(2e-3 * one);
      assertThat(s.harmonic[4]).as("fourth").isLessThan(2e-3 * one);
    }
  }

  @Test
  void aThyristorThatDoesNotFireGivesDirectCurrentAndEvenHarmonics() {
    Spectrum s = spectrum(Gates.fixed(Math.toRadians(60)), 0);
    assertThat(s.harmonic[0] / s.rms).isGreaterThan(0.1);
    assertThat(s.harmonic[2] / s.harmonic[1]).isGreaterThan(0.1);
  }

  private record Spectrum(double rms, double[] harmonic) {}

  /** RMS and harmonics (RMS values) of the current of phase 1 over one cycle of 10 ohm, 230 V. */
  private static Spectrum spectrum(Gates gates, int dead) {
    Bridge bridge =
        new Bridge(
            WaveMachine.resistor(10, 1.6e-4),
            WaveSupply.steady(230 * Math.sqrt(3), 50, 0, 0),
            new TrueLoad("held", 0, 1, 0, 2, 1e9, .05, 0, 1, 0));
    if (dead >= 0) {
      bridge.killForward(dead);
    }
    while (bridge.time() < 0.02) {
      bridge.step(4e-6, gates);
    }
    double[] re = new double[6];
    double[] im = new double[6];
    double square = 0;
    double begin = bridge.time();
    while (bridge.time() < begin + 0.02) {
      double from = bridge.time();
      double before = bridge.current(0);
      bridge.step(Math.min(4e-6, Math.max(1e-9, begin + 0.02 - from)), gates);
      double dt = bridge.time() - from;
      double i = 0.5 * (before + bridge.current(0));
      double mid = 2 * Math.PI * 50 * (from + 0.5 * dt);
      square += i * i * dt;
      for (int h = 0; h < 6; h++) {
        re[h] += i * Math.cos(h * mid) * dt;
        im[h] += i * Math.sin(h * mid) * dt;
      }
    }
    double[] harmonic = new double[6];
    harmonic[0] = Math.abs(re[0]) / 0.02;
    for (int h = 1; h < 6; h++) {
      harmonic[h] = Math.sqrt(2) * Math.hypot(re[h], im[h]) / 0.02;
    }
    return new Spectrum(Math.sqrt(square / 0.02), harmonic);
  }
}
