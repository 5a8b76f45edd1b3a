package rampwright.app.chart;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class NumbersTest {

  @Test
  void valueIsRoundedToTwoDigitsOfItsUncertainty() {
    assertThat(Numbers.value(3.25904, 0.0134)).isEqualTo("3.259");
    assertThat(Numbers.uncertainty(0.0134)).isEqualTo("± 0.013");
    assertThat(Numbers.value(2928.3, 14.0)).isEqualTo("2928");
    assertThat(Numbers.uncertainty(14.0)).isEqualTo("± 14");
    assertThat(Numbers.value(35462674.4, 120000.0)).isEqualTo("3.546e7");
  }

  @Test
  void withoutUncertaintyFourDigitsAreShown() {
    assertThat(Numbers.value(12.34567, null)).isEqualTo("12.35");
    assertThat(Numbers.value(483838.5, null)).isEqualTo("483800");
    assertThat(Numbers.uncertainty(null)).isEmpty();
    assertThat(Numbers.uncertainty(0.0)).isEmpty();
  }

  @Test
  void negativeNumbersHaveAMinusSign() {
    assertThat(Numbers.value(-3.1, 0.08)).isEqualTo("−3.100");
    assertThat(AxisRange.label(-400)).isEqualTo("−400");
    assertThat(AxisRange.label(-1e-12)).isEqualTo("0");
  }

  @Test
  void extremesAreShownWithAnExponent() {
    assertThat(Numbers.value(1.7e308, null)).isEqualTo("1.7e308");
    assertThat(Numbers.value(2.5e-9, null)).isEqualTo("2.5e-9");
    assertThat(Numbers.value(0, null)).isEqualTo("0.0");
  }

  @Test
  void energiesTakeAPrefix() {
    assertThat(Numbers.scaled(299_200, "J")).isEqualTo(new Numbers.Scaled(1e3, "kJ"));
    assertThat(Numbers.scaled(9_000, "J")).isEqualTo(new Numbers.Scaled(1, "J"));
    assertThat(Numbers.scaled(299_200, "A")).isEqualTo(new Numbers.Scaled(1, "A"));
  }

  @Test
  void axesChooseAUnitAndHoldTheirData() {
    assertThat(AxisRange.of(0, 25_000, "A", AxisRange.Fit.FROM_ZERO).unit()).isEqualTo("kA");
    assertThat(AxisRange.of(0, 3_000, "A", AxisRange.Fit.FROM_ZERO).unit()).isEqualTo("A");
    assertThat(AxisRange.of(0, 5e9, "rpm", AxisRange.Fit.FROM_ZERO).unit()).isEqualTo("10⁹ rpm");
    assertThat(AxisRange.of(0, 0.02, "s", AxisRange.Fit.EXACT).unit()).isEqualTo("ms");
    AxisRange flat = AxisRange.of(400, 400, "V", AxisRange.Fit.AROUND);
    assertThat(flat.min()).isLessThan(400);
    assertThat(flat.max()).isGreaterThan(400);
    AxisRange none = AxisRange.of(Double.NaN, Double.NaN, "V", AxisRange.Fit.AROUND);
    assertThat(none.min()).isLessThan(none.max());
  }
}
