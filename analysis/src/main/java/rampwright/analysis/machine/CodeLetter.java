package rampwright.analysis.machine;

import org.jspecify.annotations.Nullable;

/**
 * Code letter of a motor: its apparent power at locked rotor over its rating, kVA per hp.
 *
 * <p>Formula: S / P = sqrt(3) U I / P. Ranges are half-open: a letter's least value belongs to it,
 * the next letter's does not (copies of the table disagree on shared edges).
 *
 * <p>Source: NEMA MG 1, 10.37; NFPA 70, table 430.7(B). Checked by: PlateRulesReferenceTest.
 */
public final class CodeLetter {
  private static final String LETTERS = "ABCDEFGHJKLMNPRSTUV";
  private static final double[] LEAST = {
    0, 3.15, 3.55, 4.0, 4.5, 5.0, 5.6, 6.3, 7.1, 8.0, 9.0, 10.0, 11.2, 12.5, 14.0, 16.0, 18.0, 20.0,
    22.4
  };

  private CodeLetter() {}

  /** The letter of an apparent power at locked rotor, kVA per hp; not negative. */
  public static char of(double kvaPerHp) {
    if (!(kvaPerHp >= 0)) {
      throw new IllegalArgumentException("code letter of " + kvaPerHp + " kVA per hp");
    }
    int k = LEAST.length - 1;
    while (LEAST[k] > kvaPerHp) {
      k--;
    }
    return LETTERS.charAt(k);
  }

  /**
   * Least and largest kVA per hp of a letter; the largest is excluded, and infinite for V.
   *
   * @return null for what is no code letter
   */
  public static double @Nullable [] range(char letter) {
    int k = LETTERS.indexOf(letter);
    return k < 0
        ? null
        : new double[] {LEAST[k], k + 1 < LEAST.length ? LEAST[k + 1] : Double.POSITIVE_INFINITY};
  }
}
