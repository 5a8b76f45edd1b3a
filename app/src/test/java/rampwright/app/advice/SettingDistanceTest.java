package rampwright.app.advice;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.StopMode;

class SettingDistanceTest {
  private static final StarterSettings ONE =
      new StarterSettings(3.5, ControlMode.TORQUE_RAMP, 10, 20, 40, 0, 0, StopMode.SOFT, 10, 8);

  @Test
  void theSameSettingsTellAllAndOtherKindsNothing() {
    assertThat(SettingDistance.starts(ONE, ONE)).isEqualTo(1);
    assertThat(SettingDistance.stops(ONE, ONE)).isEqualTo(1);
    StarterSettings other =
        new StarterSettings(3.5, ControlMode.VOLTAGE_RAMP, 10, 20, 40, 0, 0, StopMode.COAST, 10, 8);
    assertThat(SettingDistance.starts(ONE, other)).isZero();
    assertThat(SettingDistance.stops(ONE, other)).isZero();
  }

  @Test
  void whatAControlIgnoresMakesNoDistance() {
    assertThat(SettingDistance.starts(ONE, Setting.INITIAL_VOLTAGE.in(ONE, 70))).isEqualTo(1);
    assertThat(SettingDistance.starts(ONE, Setting.RAMP_DOWN.in(ONE, 40))).isEqualTo(1);
    assertThat(SettingDistance.stops(ONE, Setting.CURRENT_LIMIT.in(ONE, 5))).isEqualTo(1);
  }

  @Test
  void fartherTellsLess() {
    double last = 1;
    for (double limit : new double[] {3.6, 3.8, 4.2, 5}) {
      double alike = SettingDistance.starts(ONE, Setting.CURRENT_LIMIT.in(ONE, limit));
      assertThat(alike).isLessThan(last).isPositive();
      last = alike;
    }
  }
}
