package rampwright.acquisition.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rampwright.acquisition.file.UnitTable.Unit;

/**
 * Factors against NIST Special Publication 811 (2008), appendix B.8, which prints seven digits. The
 * printed values were typed from memory of that table; the tolerance is half their last digit.
 */
class UnitTableReferenceTest {
  private static final double HALF_THE_LAST_OF_SEVEN_DIGITS = 0.501e-6;

  @ParameterizedTest
  @CsvSource({
    "hp, 7.456999e2",
    "PS, 7.354988e2",
    "lb-ft, 1.355818",
    "lb-in, 1.129848e-1",
    "kgf m, 9.806650",
    "psi, 6.894757e-2",
    "atm, 1.013250",
    "at, 9.806650e-1",
    "mH2O, 9.806650e-2"
  })
  void factorIsThePrintedOne(String symbol, double printed) {
    Unit unit = UnitTable.find(symbol);
    assertThat(unit).isNotNull();
    double digit = Math.pow(10, Math.floor(Math.log10(printed)));
    assertThat(unit.factor()).isCloseTo(printed, within(HALF_THE_LAST_OF_SEVEN_DIGITS * digit));
  }

  @Test
  void radiansPerSecondFollowFromTheTurn() {
    assertThat(UnitTable.find("rad/s").factor()).isEqualTo(60 / (2 * Math.PI));
    assertThat(UnitTable.find("1/s").factor()).isEqualTo(60);
  }

  @Test
  void caseCountsWhereItMust() {
    assertThat(UnitTable.find("mW").factor()).isEqualTo(1e-3);
    assertThat(UnitTable.find("MW").factor()).isEqualTo(1e6);
    assertThat(UnitTable.find("Mw")).isNull();
    assertThat(UnitTable.find("KA").factor()).isEqualTo(1e3);
    assertThat(UnitTable.find("RPM").symbol()).isEqualTo("rpm");
    assertThat(UnitTable.find("furlong")).isNull();
  }
}
