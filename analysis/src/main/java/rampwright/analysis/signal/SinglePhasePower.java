package rampwright.analysis.signal;

import org.hipparchus.complex.Complex;
import rampwright.analysis.trace.Samples;

/**
 * Power of one voltage and one current over one cycle, waveform of any shape.
 *
 * <p>Formula: P = mean of v i; S = V I; S1 = V1 I1; P1 + j Q1 = V1 conj(I1) (phasors); V_H^2 = V^2
 * - V1^2 and I_H^2 = I^2 - I1^2 (everything but the fundamental, d.c. part included); D_I = V1 I_H;
 * D_V = V_H I1; S_H = V_H I_H; S_N^2 = D_I^2 + D_V^2 + S_H^2; N^2 = S^2 - P^2; P_H = P - P1; D_H^2
 * = S_H^2 - P_H^2; THD_V = V_H/V1; THD_I = I_H/I1; PF = P/S.
 *
 * <p>Signs: power into the load is positive; Q1 is positive where the current lags.
 *
 * <p>Valid: any current and voltage that repeat over the window. Ratios are NaN where the divisor
 * is 0. THD here takes in all that is not fundamental, as the standard has it, not orders 2 to 40.
 *
 * <p>Source: IEEE Std 1459-2010, 3.1.2 (clause from memory).
 *
 * <p>Checked: PowerReferenceTest (the standard's single-phase illustration).
 *
 * @param voltageRmsV V
 * @param currentRmsA I
 * @param activePowerW P
 * @param fundamentalVoltageRmsV V1
 * @param fundamentalCurrentRmsA I1
 * @param fundamentalActivePowerW P1
 * @param fundamentalReactivePowerVar Q1
 * @param distortionVoltageRmsV V_H
 * @param distortionCurrentRmsA I_H
 */
public record SinglePhasePower(
    double voltageRmsV,
    double currentRmsA,
    double activePowerW,
    double fundamentalVoltageRmsV,
    double fundamentalCurrentRmsA,
    double fundamentalActivePowerW,
    double fundamentalReactivePowerVar,
    double distortionVoltageRmsV,
    double distortionCurrentRmsA) {

  /** Power over one window; the window's highest order must be 1 at least. */
  public static SinglePhasePower over(Samples voltage, Samples current, OneCycleDft window) {
    double[] v = window.values(voltage);
    double[] i = window.values(current);
    CycleSpectrum ofV = window.ofValues(v);
    CycleSpectrum ofI = window.ofValues(i);
    Complex power = ofV.phasor(1).multiply(ofI.phasor(1).conjugate());
    return new SinglePhasePower(
        ofV.rms(),
        ofI.rms(),
        window.meanOfProducts(v, i),
        ofV.magnitude(1),
        ofI.magnitude(1),
        power.getRealPart(),
        power.getImaginaryPart(),
        ofV.distortionRms(),
        ofI.distortionRms());
  }

  /** S, VA. */
  public double apparentPowerVA() {
    return voltageRmsV * currentRmsA;
  }

  /** S1, VA. */
  public double fundamentalApparentPowerVA() {
    return fundamentalVoltageRmsV * fundamentalCurrentRmsA;
  }

  /** D_I, var. */
  public double currentDistortionPowerVar() {
    return fundamentalVoltageRmsV * distortionCurrentRmsA;
  }

  /** D_V, var. */
  public double voltageDistortionPowerVar() {
    return distortionVoltageRmsV * fundamentalCurrentRmsA;
  }

  /** S_H, VA. */
  public double harmonicApparentPowerVA() {
    return distortionVoltageRmsV * distortionCurrentRmsA;
  }

  /** P_H, W. */
  public double harmonicActivePowerW() {
    return activePowerW - fundamentalActivePowerW;
  }

  /** D_H, var. */
  public double harmonicDistortionPowerVar() {
    return rest(harmonicApparentPowerVA(), harmonicActivePowerW());
  }

  /** S_N, VA. */
  public double nonfundamentalApparentPowerVA() {
    return Math.hypot(
        Math.hypot(currentDistortionPowerVar(), voltageDistortionPowerVar()),
        harmonicApparentPowerVA());
  }

  /** N, var. */
  public double nonactivePowerVar() {
    return rest(apparentPowerVA(), activePowerW);
  }

  /** PF. */
  public double powerFactor() {
    return ratio(activePowerW, apparentPowerVA());
  }

  /** PF1, the displacement power factor. */
  public double fundamentalPowerFactor() {
    return ratio(fundamentalActivePowerW, fundamentalApparentPowerVA());
  }

  /** THD_V, a ratio. */
  public double voltageDistortion() {
    return ratio(distortionVoltageRmsV, fundamentalVoltageRmsV);
  }

  /** THD_I, a ratio. */
  public double currentDistortion() {
    return ratio(distortionCurrentRmsA, fundamentalCurrentRmsA);
  }

  /** sqrt(whole^2 - part^2), 0 where rounding makes that negative. */
  static double rest(double whole, double part) {
    double square = (whole - Math.abs(part)) * (whole + Math.abs(part));
    return Double.isNaN(square) ? Double.NaN : Math.sqrt(Math.max(0, square));
  }

  static double ratio(double part, double whole) {
    return whole > 0 ? part / whole : Double.NaN;
  }
}
