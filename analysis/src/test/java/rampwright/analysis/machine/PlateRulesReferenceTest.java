package rampwright.analysis.machine;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rampwright.analysis.signal.Unbalance;

/** Code letters, design N and derating against their tables. */
class PlateRulesReferenceTest {
  /** NEMA MG 1, 10.37: every letter from its least value to just under the next one's. */
  @ParameterizedTest
  @CsvSource({
    "A, 0, 3.14",
    "B, 3.15, 3.54",
    "C, 3.55, 3.99",
    "D, 4.0, 4.49",
    "E, 4.5, 4.99",
    "F, 5.0, 5.59",
    "G, 5.6, 6.29",
    "H, 6.3, 7.09",
    "J, 7.1, 7.99",
    "K, 8.0, 8.99",
    "L, 9.0, 9.99",
    "M, 10.0, 11.19",
    "N, 11.2, 12.49",
    "P, 12.5, 13.99",
    "R, 14.0, 15.99",
    "S, 16.0, 17.99",
    "T, 18.0, 19.99",
    "U, 20.0, 22.39",
    "V, 22.4, 99"
  })
  void codeLetters(char letter, double least, double largest) {
    assertThat(CodeLetter.of(least)).isEqualTo(letter);
    assertThat(CodeLetter.of(largest)).isEqualTo(letter);
  }

  /** Hubert, Electric Machines, Ex 5.13: 150 hp, 460 V, code G: 1054.29 to 1186.08 A. */
  @Test
  void hubert513() {
    double[] range = CodeLetter.range('G');
    double toAmps = 150 * 1000 / (Math.sqrt(3) * 460);
    assertThat(range[0] * toAmps).isCloseTo(1054.29, within(0.005));
    assertThat(range[1] * toAmps).isCloseTo(1186.08, within(0.005));
    assertThat(CodeLetter.range('I')).as("unused").isNull();
  }

  /** NEMA MG 1, 12.35 (from memory): 50 hp design B, 725 A at 230 V: 5.776 kVA per hp, G. */
  @Test
  void designBAtFiftyHorsepower() {
    double kvaPerHp = Math.sqrt(3) * 230 * 725 / 1000 / 50;
    assertThat(kvaPerHp).isCloseTo(5.776, within(5e-4));
    assertThat(CodeLetter.of(kvaPerHp)).isEqualTo('G');
  }

  /** IEC 60034-12 design N, four poles (from memory). */
  @ParameterizedTest
  @CsvSource({"11, 1.5, 2.0", "37, 1.3, 1.9", "55, 1.2, 1.8", "132, 1.0, 1.7", "315, 0.75, 1.6"})
  void designNTorques(double kW, double locked, double breakdown) {
    assertThat(DesignN.lockedTorque(kW, 2)).isEqualTo(locked);
    assertThat(DesignN.breakdownTorque(kW, 2)).isEqualTo(breakdown);
  }

  /** The same standard, apparent power at locked rotor (from memory, 2002 edition). */
  @ParameterizedTest
  @CsvSource({
    "0.4, 22",
    "0.63, 19",
    "1.0, 17",
    "1.8, 15",
    "4, 14",
    "6.3, 13",
    "25, 12",
    "63, 11",
    "63.1, 10",
    "630, 10"
  })
  void designNApparentPower(double kW, double kvaPerKw) {
    assertThat(DesignN.lockedKvaPerKw(kW)).isEqualTo(kvaPerKw);
  }

  /**
   * Hubert Ex 5.14: 460, 455, 440 V: 2.58 %, read as 0.92 off the curve, +13.31 % rise. NEMA MG 1
   * 14.36: 460, 467, 450 V: 1.96 %, near 0.95.
   */
  @Test
  void derating() {
    double hubert = 100 * Unbalance.maxDeviationShare(460, 455, 440);
    assertThat(hubert).isCloseTo(2.583, within(5e-4));
    assertThat(UnbalanceDerating.factor(hubert)).isCloseTo(0.92, within(0.015));
    // The work rounds the unbalance to 2.58 first.
    assertThat(UnbalanceDerating.furtherRisePct(2.58)).isCloseTo(13.31, within(0.005));
    double nema = 100 * Unbalance.maxDeviationShare(460, 467, 450);
    assertThat(UnbalanceDerating.factor(nema)).isCloseTo(0.95, within(0.005));
    assertThat(UnbalanceDerating.factor(0.9)).isEqualTo(1);
    assertThat(UnbalanceDerating.factor(7)).isEqualTo(0.75);
  }
}
