package rampwright.analysis.heat;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Rating indices of IEC 60947-4-2 (notation from memory), and their closed forms. */
class RatingIndexReferenceTest {
  @Test
  void carriesTheRunningCurrent() {
    RatingIndex index = RatingIndex.parse("100 A: AC-53a: 3.5-20:50-6");
    assertThat(index.category()).isEqualTo(RatingIndex.Category.AC_53A);
    assertThat(index.ratedA()).isEqualTo(100);
    assertThat(index.overload()).isEqualTo(3.5);
    assertThat(index.overloadS()).isEqualTo(20);
    assertThat(index.onLoadPct()).isEqualTo(50);
    assertThat(index.cyclesPerHour()).isEqualTo(6);
    assertThat(index.cycleS()).isEqualTo(600);
    assertThat(index.offS()).isEqualTo(300);
  }

  @Test
  void byPassed() {
    RatingIndex index = RatingIndex.parse("AC-53b: 4-10: 590");
    assertThat(index.category()).isEqualTo(RatingIndex.Category.AC_53B);
    assertThat(index.ratedA()).isNull();
    assertThat(index.offS()).isEqualTo(590);
    assertThat(index.cyclesPerHour()).as("10 s and 590 s: six an hour").isEqualTo(6);
  }

  /** Cycle RMS by hand: sqrt((9 x 30 + 270) / 600), sqrt((12.25 x 20 + 280) / 600). */
  @ParameterizedTest
  @CsvSource({"AC-53a: 3-30: 50-6, 0.948683", "AC-53a: 3.5-20: 50-6, 0.935414"})
  void cycleRms(String text, double expected) {
    assertThat(RatingIndex.parse(text).cycleRms()).isCloseTo(expected, within(5e-7));
  }

  @Test
  void dutyIsOneForTheIndexItself() {
    RatingIndex index = RatingIndex.parse("AC-53b: 3.5-30:330");
    assertThat(index.dutyPerS(3.5) * 30).isCloseTo(1, within(1e-12));
    assertThat(index.dutyPerS(7.0) * 7.5).as("above: the square").isCloseTo(1, within(1e-12));
    assertThat(index.dutyPerS(1.75) * 60).as("below: the current").isCloseTo(1, within(1e-12));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "AC-53a: 3.5-20: 590",
        "AC-53b: 4-10: 50-6",
        "AC-53: 4-10: 590",
        "AC-53b: 4: 590",
        "AC-53b: 0.5-10: 590",
        "AC-53a: 3-30: 150-6",
        "AC-53a: 3-400: 50-6",
        "",
        "AC-53b: four-10:590"
      })
  void whatIsNoIndexIsRefusedWithWhatWasExpected(String text) {
    assertThatThrownBy(() -> RatingIndex.parse(text))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("expected AC-53a");
  }
}
