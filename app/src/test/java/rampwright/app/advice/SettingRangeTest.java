package rampwright.app.advice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;

class SettingRangeTest {

  @Test
  void valuesAreMovedToTheNearestStepInsideTheRange() {
    SettingRange range = new SettingRange(1.5, 7.0, 0.05);
    assertThat(range.nearest(3.333)).isEqualTo(3.35);
    assertThat(range.nearest(0)).isEqualTo(1.5);
    assertThat(range.nearest(99)).isEqualTo(7.0);
  }

  @Test
  void aStepThatDoesNotDivideTheRangeNeverLeavesIt() {
    SettingRange range = new SettingRange(0, 1, 0.3);
    assertThat(range.nearest(1)).isEqualTo(0.9);
  }

  @Test
  void anUpsideDownRangeIsRefused() {
    assertThatThrownBy(() -> new SettingRange(5, 2, 0.1))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("min");
  }

  @Test
  void marginsAreSharesOfTheLimit() {
    FigureLimit limit = new FigureLimit("start_time_s", 4.0, 10.0);
    assertThat(limit.margin(9)).isEqualTo(0.1);
    assertThat(limit.margin(5)).isEqualTo(0.25);
    assertThat(limit.margin(11)).isEqualTo(-0.1);
    assertThat(limit.margin(Double.NaN)).isNaN();
    assertThat(limit.met(Double.NaN)).isFalse();
  }
}
