package rampwright.exam.wave;

import rampwright.exam.plant.TrueMachine;

/**
 * An induction machine with any number of rotor cages, in two axes at rest with the stator.
 *
 * <p>Formulas: airgap linkage psi_m = Lp (i + sum psi_k / L_k) with 1/Lp = 1/Lm + sum 1/L_k; cage
 * current i_k = (psi_k - psi_m) / L_k; d psi_k/dt = -R_k i_k + j w psi_k; stator linkage (Lls + Lp)
 * i + lambda with lambda = Lp sum psi_k / L_k; torque = 1.5 p (lambda x i).
 *
 * @param rs stator resistance; {@code lls} leakage; {@code lm} magnetising inductance
 * @param rr resistance of each cage; not to be written to
 * @param llr leakage of each cage; not to be written to
 */
@SuppressWarnings("ArrayRecordComponent")
public record WaveMachine(
    double rs, double lls, double lm, double[] rr, double[] llr, int polePairs, double inertia) {

  /** Number of cages. */
  public int cages() {
    return rr.length;
  }

  /** Inductance that the airgap linkage presents to a change of stator current. */
  public double lp() {
    double inverse = 1 / lm;
    for (double leakage : llr) {
      inverse += 1 / leakage;
    }
    return 1 / inverse;
  }

  /** A linear machine with the leakage that a true machine has at a given current. */
  public static WaveMachine of(TrueMachine machine, double inertiaKgM2, double saturatedAtA) {
    double w = 2 * Math.PI * machine.frequencyHz();
    double square = saturatedAtA * saturatedAtA;
    double limit = machine.saturationA() * machine.saturationA();
    double factor = 1 - machine.depth() * square / (square + limit);
    return new WaveMachine(
        machine.r1(),
        machine.x1() * factor / w,
        machine.xm() / w,
        new double[] {machine.ro(), machine.ri()},
        new double[] {machine.xo() * factor / w, machine.xi() * factor / w},
        machine.polePairs(),
        inertiaKgM2);
  }

  /**
   * A plain resistor with a little inductance in each phase, for checks of phase control alone.
   *
   * <p>The rotor is there but takes no part: its linkage stays zero.
   */
  public static WaveMachine resistor(double ohm, double henry) {
    return new WaveMachine(ohm, henry, 1e-12, new double[] {0}, new double[] {1e-12}, 1, 1e9);
  }
}
