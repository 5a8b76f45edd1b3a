package rampwright.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import rampwright.app.wording.ValueText;

class TextTest {
  @Test
  void valuesHaveTheDigitsTheirUncertaintyAllows() {
    assertThat(ValueText.value(8.0634, 0.021)).isEqualTo("8.063");
    assertThat(ValueText.value(512.34, 2.8)).isEqualTo("512.3");
    assertThat(ValueText.value(512.34, 28.0)).isEqualTo("512");
    assertThat(ValueText.value(202_296.1, 3400.0)).isEqualTo("202 300");
    assertThat(ValueText.value(2, 1e-12)).as("no more than seven digits").isEqualTo("2.000000");
  }

  @Test
  void valuesWithoutUncertaintyHaveFourDigits() {
    assertThat(ValueText.value(3.14159, null)).isEqualTo("3.142");
    assertThat(ValueText.value(2112094.75, null)).isEqualTo("2 112 000");
    assertThat(ValueText.value(3.5, null)).isEqualTo("3.5");
    assertThat(ValueText.value(0, null)).isEqualTo("0");
    assertThat(ValueText.value(-0.00123456, null)).isEqualTo("-0.001235");
    assertThat(ValueText.value(1.5e-7, null)).isEqualTo("1.500e-7");
  }

  @Test
  void uncertaintiesHaveTwoDigits() {
    assertThat(ValueText.uncertainty(0.02134)).isEqualTo("0.021");
    assertThat(ValueText.uncertainty(3400.0)).isEqualTo("3400");
    assertThat(ValueText.uncertainty(null)).isEqualTo("-");
  }

  @Test
  void numbersAreSetToTheRightAndTextToTheLeft() {
    TextTable table = new TextTable("  ", "lrl", "name", "n", "unit");
    table.row("peak", "512.3", "A");
    table.row("start time", "8", "s");
    assertThat(table.lines(100))
        .containsExactly(
            "  name            n  unit", "  peak        512.3  A", "  start time      8  s");
  }

  @Test
  void longNumbersAreGroupedByThrees() {
    assertThat(ValueText.grouped("1234")).isEqualTo("1234");
    assertThat(ValueText.grouped("12345.678")).isEqualTo("12 345.678");
    assertThat(ValueText.grouped("-1234567")).isEqualTo("-1 234 567");
    assertThat(ValueText.uncertainty(12_300.0)).isEqualTo("12 000");
  }

  @Test
  void proseGivesWayWhereTheScreenIsNarrow() {
    TextTable table = new TextTable("", "lwr", "name", "why", "n");
    table.row("peak", "one two three four five six seven", "1");
    table.under("under the row");
    assertThat(table.lines(24))
        .containsExactly(
            "name  why              n",
            "peak  one two three    1",
            "      four five six",
            "      seven",
            "  under the row");
    assertThat(table.lines(100).get(1)).endsWith("six seven  1");
  }

  @Test
  void aGroupedNumberIsNotBroken() {
    assertThat(TextWrap.broken("L1 684 000, L2 729 000", 12))
        .containsExactly("L1 684 000,", "L2 729 000");
    assertThat(TextWrap.broken("L1-L2 394.0, L3-L1 392.0", 20))
        .as("a number that would not fit takes its name along")
        .containsExactly("L1-L2 394.0,", "L3-L1 392.0");
  }

  @Test
  void lineFeedsAndLettersOfEveryScriptPass() {
    assertThat(SafeText.of("Förderband\n± Ω 水")).isEqualTo("Förderband\n± Ω 水");
    assertThat(SafeText.of("a\tb\rc\u009bd\u2028e\ud800"))
        .isEqualTo("a\\x09b\\x0dc\\x9bdU+2028eU+d800");
  }
}
