package rampwright.analysis.figure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.trace.ChannelName;

/** What happens between two readings is in the uncertainties. Courses in closed form. */
class BetweenReadingsTest {
  private static void within2u(Measured measured, double truth, double mostU) {
    assertThat(measured.value()).as(String.valueOf(measured.why())).isNotNull();
    assertThat(measured.uncertainty()).isLessThan(mostU);
    assertThat(measured.value()).isCloseTo(truth, within(2 * measured.uncertainty()));
  }

  @ParameterizedTest
  @ValueSource(doubles = {10, 20})
  void aPeakCutOffOnItsWayUp(double rateHz) {
    // 150 A/s from 200 A, cut at 350 A between two readings.
    double endS = 4.03;
    Measured peak =
        MadeTrace.analyze(
                new MadeTrace(8, rateHz)
                    .withThreeReadings(t -> t < 3.03 || t > endS ? 0 : 200 + 150 * (t - 3.03))
                    .build())
            .figures()
            .starts()
            .get(0)
            .figures()
            .get("peak_current_A");
    within2u(peak, 350, 20);
  }

  @ParameterizedTest
  @ValueSource(doubles = {4, 10, 20})
  void theSteepestFallOfAShaftThatCoasts(double rateHz) {
    // Let go at 10 s: speed decays with 2 s; over the first 0.1 s it falls by 1 - e^-0.05.
    double tauS = 2;
    StartRecord start =
        MadeTrace.analyze(
                new MadeTrace(24, rateHz)
                    .withThreeReadings(t -> t < 2.02 || t > 10.02 ? 0 : t < 5 ? 350 : 80)
                    .with(
                        ChannelName.SPEED,
                        t ->
                            t < 10.02
                                ? Math.max(0, Math.min(1480, 1480 * (t - 2.02) / 3))
                                : 1480 * Math.exp(-(t - 10.02) / tauS))
                    .build())
            .figures()
            .starts()
            .get(0);
    double truth = 100 * (1 - Math.exp(-0.1 / tauS)) / 0.1;
    within2u(start.stop().figures().get("stop_deceleration_pct_per_s"), truth, 0.25 * truth);
  }

  @Test
  void aStartThatRisesBetweenItsFirstReadings() {
    // Ten readings a second, a start of two seconds whose current comes up over 0.15 s.
    double beginS = 2.0;
    double endS = 4.08;
    double riseS = 0.15;
    StartRecord start =
        MadeTrace.analyze(
                new MadeTrace(8, 10)
                    .withThreeReadings(
                        t ->
                            t < beginS || t > endS
                                ? 0
                                : 270 * Math.min(1, Math.max(0.2, (t - beginS) / riseS)))
                    .build())
            .figures()
            .starts()
            .get(0);
    double rising = 0;
    for (int k = 0; k < 1500; k++) {
      double share = Math.max(0.2, (k + 0.5) / 1500);
      rising += 270 * 270 * share * share * riseS / 1500;
    }
    double i2t = rising + 270 * 270 * (endS - beginS - riseS);
    within2u(start.figures().get("i2t_A2s"), i2t, 0.05 * i2t);
    double rms = Math.sqrt(i2t / (endS - beginS));
    within2u(start.figures().get("rms_current_A"), rms, 0.05 * rms);
  }
}
