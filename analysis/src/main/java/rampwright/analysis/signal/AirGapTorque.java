package rampwright.analysis.signal;

import java.util.List;
import rampwright.analysis.trace.Samples;

/**
 * Estimate of an induction motor's air-gap torque from waveforms of its terminal voltages and
 * currents.
 *
 * <p>Formula: T = poles/(2 sqrt(3)) ((i1 - i2) F31 - (i3 - i1) F12), F12 = integral (v12 - R (i1 -
 * i2)) dt, F31 = integral (v31 - R (i3 - i1)) dt, each less its own mean over {@link #DRIFT_CYCLES}
 * cycles centred on the instant (fewer whole cycles, at least one, near the record's ends and near
 * samples without good value).
 *
 * <p>Symbols: poles, number of poles (not pairs); R, stator resistance per phase of the star or of
 * the equivalent star, ohm, at its temperature during the record: half of what is measured from
 * line to line (statorOhm); F, line-to-line flux linkages, V s.
 *
 * <p>Drift: an offset of a voltage would make F run away. Taking the centred mean off is a
 * high-pass without phase shift, 1 - sinc(K f/f1) for K cycles of frequency f1: it leaves the
 * fundamental and its harmonics as they are, removes a constant and a linear drift whole, and keeps
 * most of the decaying flux that switching on leaves in the stator, whose braking share would
 * otherwise be lost. Numbers are in analysis/docs/signal.md. An offset of a current adds a
 * pulsation at f1 but does not change the mean over a cycle.
 *
 * <p>Valid: voltages taken at the motor's terminals. Behind a phase-controlled starter the supply's
 * voltage is not that: while a pair of thyristors blocks, the motor's own voltage stands at the
 * terminal, and the torque reads too large (3 to 8 % at firing angles of 75 to 90 degrees, more
 * beyond; measured on a model). {@link #fromPowerNm} serves with the supply's voltage. Three wires;
 * iron loss not included. A resistance taken too large by dR lowers the torque by poles/2 (I1^2 +
 * I2^2 + I3^2) dR / w, w = 2 pi f1 (copper: +0.39 % per kelvin).
 *
 * <p>Source: Hsu and Scoggins, "Field test of motor efficiency and load changes through air-gap
 * torque", IEEE Trans. Energy Conversion 10(3), 1995 (formula from memory; a few percent of error
 * reported in use); drift removal own derivation, analysis/docs/signal.md section 5.
 *
 * <p>Checked: AirGapTorqueReferenceTest (d-q model of a handbook machine).
 *
 * @param poles number of poles, even, from 2
 * @param statorOhm resistance per phase of the star, ohm, 0 or more
 */
public record AirGapTorque(int poles, double statorOhm) {
  /** Cycles whose mean flux is taken off: long against the decay of stator flux, short of drift. */
  public static final int DRIFT_CYCLES = 20;

  private static final int WINDOWS_AT_ONCE = 64;

  public AirGapTorque {
    if (poles < 2 || poles % 2 != 0 || !(statorOhm >= 0) || statorOhm == Double.POSITIVE_INFINITY) {
      throw new IllegalArgumentException(
          "air-gap torque: "
              + poles
              + " poles, stator "
              + statorOhm
              + " ohm; need an even number from 2 and a finite resistance of 0 or more");
    }
  }

  /**
   * Mean torque over each of consecutive cycles, N m; NaN for those within half a cycle and two
   * samples of the record's ends or of a sample without good value.
   *
   * @param stepS sampling interval, s
   * @param cycles one-cycle windows in order of time; they may overlap
   */
  public double[] meansNm(ThreeWire circuit, double stepS, List<SampleWindow> cycles) {
    double[] means = new double[cycles.size()];
    for (int first = 0; first < means.length; first += WINDOWS_AT_ONCE) {
      int count = Math.min(WINDOWS_AT_ONCE, means.length - first);
      List<SampleWindow> some = cycles.subList(first, first + count);
      int from = Integer.MAX_VALUE;
      int to = 0;
      double lengths = 0;
      for (SampleWindow cycle : some) {
        from = Math.min(from, Math.max(0, (int) cycle.from() - 1));
        to = Math.max(to, Math.min(circuit.size(), (int) cycle.to() + 3));
        lengths += cycle.length();
      }
      Samples torque = Samples.owning(seriesNm(circuit, stepS, lengths / count, from, to));
      for (int k = 0; k < count; k++) {
        SampleWindow cycle = some.get(k);
        means[first + k] =
            cycle.to() > circuit.size() - 1
                ? Double.NaN
                : OneCycleDft.of(
                        torque, new SampleWindow(cycle.from() - from, cycle.to() - from), 0)
                    .mean();
      }
    }
    return means;
  }

  /**
   * Mean torque over one cycle from the power taken, N m; for voltages on the supply's side of the
   * thyristors as well as at the terminals.
   *
   * <p>Formula: T = poles/2 (P - R (I1^2 + I2^2 + I3^2) - R2 3 I_eH^2) / (2 pi f1).
   *
   * <p>Symbols: P active power, W; I1, I2, I3 line currents, RMS; I_eH effective harmonic current;
   * R2 rotor resistance per phase referred to the stator, ohm (rotorOhm).
   *
   * <p>Valid: a blocked thyristor carries no current, so that power is the same on both sides of an
   * ideal one, and a sine supply gives it all at the fundamental; what harmonics heat in stator and
   * rotor does not turn the shaft. Unbalance: counts the power of the negative sequence as driving,
   * 2 (I-/I+)^2 too much at standstill. Current and flux settled over a cycle: the energy stored in
   * the fields must not change much. With R2 unknown give 0: then too large by up to (I_eH/I_e1)^2
   * at standstill. Thyristor drop (about 1.5 V in each conducting line), iron and stray loss are
   * counted as torque. On a model: within 1 % up to firing angles of 90 degrees and 3 % at 105;
   * with R2 = 0 too large by up to 5 % and 11 %.
   *
   * <p>Source: power balance of the induction machine, any text-book; harmonic term own, checked in
   * AirGapTorquePhaseControlTest.
   *
   * @param frequencyHz frequency of the fundamental
   * @param rotorOhm rotor resistance referred to the stator, or 0 when unknown
   */
  public double fromPowerNm(ThreeWirePower power, double frequencyHz, double rotorOhm) {
    if (!(frequencyHz > 0) || !(rotorOhm >= 0)) {
      throw new IllegalArgumentException(
          "air-gap torque: frequency "
              + frequencyHz
              + " Hz, rotor "
              + rotorOhm
              + " ohm; need a frequency above 0 and a resistance of 0 or more");
    }
    double current = power.effectiveCurrentA();
    double harmonic = power.distortionCurrentA();
    double heatW = 3 * (statorOhm * current * current + rotorOhm * harmonic * harmonic);
    return poles / 2.0 * (power.activePowerW() - heatW) / (2 * Math.PI * frequencyHz);
  }

  /**
   * Torque at each sample from {@code from} on, before {@code to}, N m; NaN within half a cycle and
   * two samples of the record's ends and of a sample without good value.
   *
   * @param stepS sampling interval, s
   * @param cycleSamples length of a cycle in samples
   */
  public double[] seriesNm(ThreeWire circuit, double stepS, double cycleSamples, int from, int to) {
    if (!(stepS > 0) || !(cycleSamples >= 4) || from < 0 || to < from || to > circuit.size()) {
      throw new IllegalArgumentException(
          "torque from sample "
              + from
              + " to "
              + to
              + " of "
              + circuit.size()
              + ", step "
              + stepS
              + " s, cycle "
              + cycleSamples
              + " samples; need 0 <= from <= to <= size, a step above 0 and 4 samples a cycle");
    }
    int reach = (int) Math.ceil(DRIFT_CYCLES * cycleSamples / 2) + 2;
    int first = Math.max(0, from - reach);
    int count = Math.min(circuit.size(), to + reach) - first;
    double[][] v = circuit.lineVoltages(first, count);
    double[][] i = circuit.currents(first, count);
    FluxLinkage flux12 = new FluxLinkage(v[0], i[0], i[1], statorOhm, stepS);
    FluxLinkage flux31 = new FluxLinkage(v[2], i[2], i[0], statorOhm, stepS);
    int[] clear = clear(v, i);
    double factor = poles / (2 * Math.sqrt(3));
    double[] torque = new double[to - from];
    for (int k = 0; k < torque.length; k++) {
      int at = from - first + k;
      int cycles = (int) Math.min(DRIFT_CYCLES, 2 * (clear[at] - 2) / cycleSamples);
      double half = cycles * cycleSamples / 2;
      torque[k] =
          cycles < 1
              ? Double.NaN
              : factor
                  * ((i[0][at] - i[1][at]) * flux31.withoutMean(at, half)
                      - (i[2][at] - i[0][at]) * flux12.withoutMean(at, half));
    }
    return torque;
  }

  /** For each sample, how many samples on either side of it are there and good. */
  private static int[] clear(double[][] v, double[][] i) {
    int count = v[0].length;
    int[] clear = new int[count];
    int run = -1;
    for (int k = 0; k < count; k++) {
      boolean bad = Double.isNaN(v[0][k] + v[2][k] + i[0][k] + i[1][k] + i[2][k]);
      run = bad ? -1 : run + 1;
      clear[k] = run;
    }
    run = -1;
    for (int k = count - 1; k >= 0; k--) {
      run = clear[k] < 0 ? -1 : run + 1;
      clear[k] = Math.min(clear[k], run);
    }
    return clear;
  }
}
