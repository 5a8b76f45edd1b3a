package rampwright.app.envelope;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class LimitTest {
  private static final double ROUNDING = 1e-12;

  private static Limit limit(Double min, Double max) {
    return new Limit(FigureKey.START_TIME, min, max);
  }

  @Test
  void marginIsTheSmallerOfBothSides() {
    // 100 (12 - 9)/12 = 25 and 100 (9 - 4)/4 = 125; at 5: 58.3 and 25.
    assertThat(limit(4.0, 12.0).marginPct(9)).isCloseTo(25, within(ROUNDING));
    assertThat(limit(4.0, 12.0).marginPct(5)).isCloseTo(25, within(ROUNDING));
    assertThat(limit(null, 3.5).marginPct(2.8)).isCloseTo(20, within(1e-9));
    assertThat(limit(4.0, null).marginPct(5)).isCloseTo(25, within(ROUNDING));
  }

  @Test
  void marginIsNegativeOutside() {
    assertThat(limit(null, 4.0).marginPct(5)).isCloseTo(-25, within(ROUNDING));
    assertThat(limit(4.0, null).marginPct(3)).isCloseTo(-25, within(ROUNDING));
  }

  @Test
  void theLimitItselfIsWithin() {
    assertThat(limit(4.0, 12.0).allows(4)).isTrue();
    assertThat(limit(4.0, 12.0).allows(12)).isTrue();
    assertThat(limit(4.0, 12.0).marginPct(12)).isEqualTo(0);
    assertThat(limit(4.0, 12.0).allows(Math.nextUp(12.0))).isFalse();
  }

  @Test
  void marginOfANegativeLimitKeepsItsSign() {
    Limit fall = new Limit(FigureKey.PRESSURE_MIN, -0.5, null);
    assertThat(fall.marginPct(-0.4)).isCloseTo(20, within(1e-9));
    assertThat(fall.marginPct(-0.6)).isCloseTo(-20, within(1e-9));
  }

  @Test
  void aLimitOfZeroHasNoPercentage() {
    assertThat(limit(null, 0.0).marginPct(1)).isNull();
    assertThat(limit(0.0, 4.0).marginPct(1)).isCloseTo(75, within(ROUNDING));
  }

  @Test
  void anEmptyOrTurnedLimitIsRefused() {
    assertThatThrownBy(() -> limit(null, null)).isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> limit(5.0, 4.0)).isInstanceOf(IllegalArgumentException.class);
  }
}
