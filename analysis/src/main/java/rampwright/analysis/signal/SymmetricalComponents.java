package rampwright.analysis.signal;

import org.hipparchus.complex.Complex;

/**
 * Zero, positive and negative sequence of three phasors, referred to the first phase.
 *
 * <p>Formula: X0 = (Xa + Xb + Xc)/3, X+ = (Xa + a Xb + a^2 Xc)/3, X- = (Xa + a^2 Xb + a Xc)/3, a =
 * exp(j 2 pi/3).
 *
 * <p>Symbols: Xa, Xb, Xc phasors of L1, L2, L3 (or L1-L2, L2-L3, L3-L1) over one window.
 *
 * <p>Source: Fortescue's transform, as in IEC 61000-4-30 5.7 (clause from memory).
 *
 * <p>Checked: SymmetricalComponentsReferenceTest.
 *
 * @param zero zero sequence; cannot be seen from line-to-line voltages or three-wire currents
 * @param positive positive sequence
 * @param negative negative sequence
 */
public record SymmetricalComponents(Complex zero, Complex positive, Complex negative) {
  private static final Complex A = new Complex(-0.5, Math.sqrt(0.75));
  private static final Complex A2 = A.conjugate();

  /** Components of three phasors in phase order. */
  public static SymmetricalComponents of(Complex first, Complex second, Complex third) {
    return new SymmetricalComponents(
        first.add(second).add(third).divide(3),
        first.add(A.multiply(second)).add(A2.multiply(third)).divide(3),
        first.add(A2.multiply(second)).add(A.multiply(third)).divide(3));
  }

  /**
   * Components of the currents of a three-wire circuit from those of L1 and L2; the third is minus
   * their sum. Zero sequence is 0 by construction.
   */
  public static SymmetricalComponents ofTwoLines(Complex first, Complex second) {
    return of(first, second, first.add(second).negate());
  }

  /**
   * Phase-voltage components from those of the line-to-line voltages v12, v23, v31: V+ = V12+ /
   * (sqrt(3) at +30 degrees), V- = V12- / (sqrt(3) at -30 degrees). Zero sequence is unknown and
   * set to 0.
   */
  public SymmetricalComponents phaseFromLine() {
    Complex turn = new Complex(1.5, Math.sqrt(0.75));
    return new SymmetricalComponents(
        Complex.ZERO, positive.divide(turn), negative.divide(turn.conjugate()));
  }

  /** |X-| / |X+|; NaN when there is nothing to compare. */
  public double negativeShare() {
    return ratio(negative, positive);
  }

  /** |X0| / |X+|; NaN when there is nothing to compare. */
  public double zeroShare() {
    return ratio(zero, positive);
  }

  private static double ratio(Complex part, Complex of) {
    double p = part.norm();
    double o = of.norm();
    return o == 0 && p == 0 ? Double.NaN : p / o;
  }
}
