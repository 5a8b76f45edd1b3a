package rampwright.acquisition.toml;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class PlainNumberTest {
  @Test
  void numbersAreShortPlainAndReadBackTheSame() {
    assertThat(PlainNumber.of(3.5)).isEqualTo("3.5");
    assertThat(PlainNumber.of(1482)).isEqualTo("1482");
    assertThat(PlainNumber.of(50_000)).isEqualTo("50000");
    assertThat(PlainNumber.of(1e-5)).isEqualTo("0.00001");
    assertThat(PlainNumber.of(-0.0)).isEqualTo("0");
    assertThat(Double.parseDouble(PlainNumber.of(0.1 + 0.2))).isEqualTo(0.1 + 0.2);
  }
}
