package rampwright.analysis.signal;

import org.hipparchus.complex.Complex;

/**
 * Effective (three-phase) power of a three-wire circuit over one cycle, waveform and unbalance of
 * any kind.
 *
 * <p>Formula: V_e^2 = (V12^2 + V23^2 + V31^2)/9; I_e^2 = (I1^2 + I2^2 + I3^2)/3; S_e = 3 V_e I_e;
 * the same with fundamentals for V_e1, I_e1, S_e1; V_eH^2 = V_e^2 - V_e1^2; I_eH^2 = I_e^2 -
 * I_e1^2; D_eI = 3 V_e1 I_eH; D_eV = 3 V_eH I_e1; S_eH = 3 V_eH I_eH; S_eN^2 = D_eI^2 + D_eV^2 +
 * S_eH^2; P = mean of u1 i1 + u2 i2 + u3 i3 with u1 = (v12 - v31)/3, u2 = (v23 - v12)/3, u3 = (v31
 * - v23)/3; P1+ + j Q1+ = 3 V+ conj(I+); S1+ = 3 |V+| |I+|; S_U1^2 = S_e1^2 - S1+^2; N^2 = S_e^2 -
 * P^2; PF_e = P/S_e.
 *
 * <p>With currents that add to zero, P is that of two wattmeters, mean of v13 i1 + v23 i2.
 *
 * <p>Signs: power into the load is positive; Q1+ is positive where the current lags. A negative P
 * on a motor means a reversed current transformer or swapped channels, or a driven machine.
 *
 * <p>Valid: no fourth wire (V_e is defined otherwise with one); signals that repeat over the
 * window. Everything is NaN when a sample of a channel has no good value.
 *
 * <p>Source: IEEE Std 1459-2010, 3.2.2 and 3.2.3 (clauses from memory); two wattmeters: Blondel's
 * theorem.
 *
 * <p>Checked: PowerReferenceTest.
 *
 * @param effectiveVoltageV V_e, a phase voltage
 * @param effectiveCurrentA I_e
 * @param fundamentalEffectiveVoltageV V_e1
 * @param fundamentalEffectiveCurrentA I_e1
 * @param activePowerW P
 * @param voltage fundamental sequence components of the phase voltages, V; zero sequence unknown
 * @param current fundamental sequence components of the line currents, A
 */
public record ThreeWirePower(
    double effectiveVoltageV,
    double effectiveCurrentA,
    double fundamentalEffectiveVoltageV,
    double fundamentalEffectiveCurrentA,
    double activePowerW,
    SymmetricalComponents voltage,
    SymmetricalComponents current) {

  /** Power over one window; the window's highest order must be 1 at least (more is not used). */
  public static ThreeWirePower over(ThreeWire circuit, OneCycleDft window) {
    double[][] v = window.values(circuit::lineVoltages, circuit.size());
    double[][] i = window.values(circuit::currents, circuit.size());
    double[][] u = toNeutral(v);
    Complex[] phasorV = new Complex[3];
    Complex[] phasorI = new Complex[3];
    double v2 = 0;
    double i2 = 0;
    double v12 = 0;
    double i12 = 0;
    double activeW = 0;
    for (int p = 0; p < 3; p++) {
      CycleSpectrum ofV = window.ofValues(v[p]);
      CycleSpectrum ofI = window.ofValues(i[p]);
      phasorV[p] = ofV.phasor(1);
      phasorI[p] = ofI.phasor(1);
      v2 += ofV.rms() * ofV.rms();
      i2 += ofI.rms() * ofI.rms();
      v12 += phasorV[p].norm() * phasorV[p].norm();
      i12 += phasorI[p].norm() * phasorI[p].norm();
      activeW += window.meanOfProducts(u[p], i[p]);
    }
    return new ThreeWirePower(
        Math.sqrt(v2) / 3,
        Math.sqrt(i2 / 3),
        Math.sqrt(v12) / 3,
        Math.sqrt(i12 / 3),
        activeW,
        SymmetricalComponents.of(phasorV[0], phasorV[1], phasorV[2]).phaseFromLine(),
        SymmetricalComponents.of(phasorI[0], phasorI[1], phasorI[2]));
  }

  private static double[][] toNeutral(double[][] line) {
    double[][] u = new double[3][line[0].length];
    for (int p = 0; p < 3; p++) {
      double[] ahead = line[p];
      double[] behind = line[(p + 2) % 3];
      for (int k = 0; k < ahead.length; k++) {
        u[p][k] = (ahead[k] - behind[k]) / 3;
      }
    }
    return u;
  }

  /** S_e, VA. */
  public double apparentPowerVA() {
    return 3 * effectiveVoltageV * effectiveCurrentA;
  }

  /** S_e1, VA. */
  public double fundamentalApparentPowerVA() {
    return 3 * fundamentalEffectiveVoltageV * fundamentalEffectiveCurrentA;
  }

  /** P1+, W. */
  public double positiveActivePowerW() {
    return positivePower().getRealPart();
  }

  /** Q1+, var. */
  public double positiveReactivePowerVar() {
    return positivePower().getImaginaryPart();
  }

  /**
   * Q1 in the sequence the voltages turn in, var: Q1+, or with the phases taken in reverse order
   * Q1-.
   */
  public double dominantReactivePowerVar() {
    return voltage.positive().norm() >= voltage.negative().norm()
        ? positiveReactivePowerVar()
        : voltage
            .negative()
            .multiply(current.negative().conjugate())
            .multiply(3)
            .getImaginaryPart();
  }

  /** S1+, VA. */
  public double positiveApparentPowerVA() {
    return positivePower().norm();
  }

  /** S_U1, VA: what unbalance of the fundamentals adds. */
  public double unbalancePowerVA() {
    return SinglePhasePower.rest(fundamentalApparentPowerVA(), positiveApparentPowerVA());
  }

  /** V_eH, V. */
  public double distortionVoltageV() {
    return SinglePhasePower.rest(effectiveVoltageV, fundamentalEffectiveVoltageV);
  }

  /** I_eH, A. */
  public double distortionCurrentA() {
    return SinglePhasePower.rest(effectiveCurrentA, fundamentalEffectiveCurrentA);
  }

  /** D_eI, var. */
  public double currentDistortionPowerVar() {
    return 3 * fundamentalEffectiveVoltageV * distortionCurrentA();
  }

  /** D_eV, var. */
  public double voltageDistortionPowerVar() {
    return 3 * distortionVoltageV() * fundamentalEffectiveCurrentA;
  }

  /** S_eH, VA. */
  public double harmonicApparentPowerVA() {
    return 3 * distortionVoltageV() * distortionCurrentA();
  }

  /** S_eN, VA. */
  public double nonfundamentalApparentPowerVA() {
    return Math.hypot(
        Math.hypot(currentDistortionPowerVar(), voltageDistortionPowerVar()),
        harmonicApparentPowerVA());
  }

  /** N, var. */
  public double nonactivePowerVar() {
    return SinglePhasePower.rest(apparentPowerVA(), activePowerW);
  }

  /** PF_e. */
  public double powerFactor() {
    return SinglePhasePower.ratio(activePowerW, apparentPowerVA());
  }

  private Complex positivePower() {
    return voltage.positive().multiply(current.positive().conjugate()).multiply(3);
  }
}
