package rampwright.app.advice;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import rampwright.analysis.fit.ObservationBuilder;
import rampwright.analysis.fit.TrialObservation;
import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.StopMode;

/** A current that rises for 8 s to 400 A, falls to 100 A and is cut at 20 s. */
class DatedFiguresTest {
  private static final StarterSettings MADE =
      new StarterSettings(4.0, ControlMode.VOLTAGE_RAMP, 8, 20, 40, 0, 0, StopMode.COAST, 10, 10);

  private static AdviceRequest.Trial trial(double peakA, boolean withSpeed) {
    int size = 500;
    double[] timeS = new double[size];
    double[][] amps = new double[1][size];
    double[] speed = new double[size];
    for (int k = 0; k < size; k++) {
      timeS[k] = 0.05 * k;
      double on = timeS[k] - 2;
      amps[0][k] = on < 0 || on > 18 ? 0 : on < 8 ? 200 + 25 * on : 100;
      speed[k] = on < 0 ? 0 : Math.min(1480, 185 * on);
    }
    double @Nullable [] rpm = withSpeed ? speed : null;
    return new AdviceRequest.Trial(
        new ObservationBuilder(MADE, 138)
            .readings(timeS, amps, new double[0][], rpm)
            .end(TrialObservation.End.COMPLETED)
            .build(),
        Map.of("peak_current_A", peakA, "peak_current_ratio", peakA / 138));
  }

  @Test
  void aPeakBeforeAnEarlyDateOfFullSpeedIsHidden() {
    // Full speed dated at 5 s: the peak up to there is 325 A.
    assertThat(DatedFigures.isExtremeHidden(trial(325, false), "peak_current_ratio")).isTrue();
    assertThat(DatedFigures.isExtremeHidden(trial(325, false), "voltage_dip_pct")).isTrue();
    assertThat(DatedFigures.hangs(trial(325, false), "peak_current_A")).isTrue();
  }

  @Test
  void aPeakThatIsTheLargestOfTheWholeStartIsNot() {
    assertThat(DatedFigures.isExtremeHidden(trial(399, false), "peak_current_ratio")).isFalse();
    assertThat(DatedFigures.hangs(trial(399, false), "stop_time_s")).isFalse();
    assertThat(DatedFigures.hangs(trial(399, false), "i2t_ratio_s")).isTrue();
  }

  @Test
  void withASpeedChannelNothingHangsOnARule() {
    assertThat(DatedFigures.isExtremeHidden(trial(325, true), "peak_current_ratio")).isFalse();
    assertThat(DatedFigures.hangs(trial(325, true), "start_time_s")).isFalse();
  }
}
