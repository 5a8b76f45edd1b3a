package rampwright.analysis.figure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import rampwright.analysis.trace.ChannelName;

/** Records that begin with current flowing: during the start, or in the run. In 100 A, 1480 rpm. */
class RecordBeginsLateTest {
  private static final double FULL_S = 4;
  private static final double CUT_S = 20;

  private static double current(double t) {
    return t < FULL_S ? 350 : t < FULL_S + 0.5 ? 350 - 540 * (t - FULL_S) : t < CUT_S ? 80 : 0;
  }

  private static double speed(double t) {
    return t < CUT_S ? Math.min(1480, 600 + 220 * t) : Math.max(0, 1480 - 200 * (t - CUT_S));
  }

  private static StartRecord of(boolean withSpeed) {
    MadeTrace made = new MadeTrace(40, 50).withThreeReadings(RecordBeginsLateTest::current);
    if (withSpeed) {
      made.with(ChannelName.SPEED, RecordBeginsLateTest::speed);
    }
    return MadeTrace.analyze(made.build()).figures().starts().get(0);
  }

  @ParameterizedTest
  @ValueSource(booleans = {true, false})
  void duringTheStartItsFiguresAreMissingButRunAndStopAreThere(boolean withSpeed) {
    StartRecord start = of(withSpeed);
    assertThat(start.outcome()).isEqualTo(Outcome.COMPLETED);
    for (String key : new String[] {"start_time_s", "peak_current_A", "i2t_A2s", "rms_current_A"}) {
      assertThat(start.figures().get(key).why()).as(key).contains("begins during the start");
    }
    assertThat(start.instants().get("inception_s").why()).contains("begins during the start");
    assertThat(start.figures().get("run_current_A").value()).isCloseTo(80, within(0.1));
    assertThat(start.stop().kind()).isEqualTo(StopKind.COAST);
    assertThat(start.stop().instants().get("stop_begin_s").value()).isCloseTo(CUT_S, within(0.04));
    if (withSpeed) {
      // 95 % of 1480 rpm at 600 + 220 t.
      assertThat(start.instants().get("full_speed_s").value())
          .isCloseTo((0.95 * 1480 - 600) / 220, within(0.02));
    } else {
      assertThat(start.instants().get("full_speed_s").why()).contains("begins during the start");
    }
  }

  @Test
  void aStallTheRecordBeginsInIsNoMotorAlreadyRunning() {
    MadeTrace made =
        new MadeTrace(40, 50)
            .withThreeReadings(t -> t < 20 ? 400 : 0)
            .with(ChannelName.SPEED, t -> 0);
    TraceFigures f = MadeTrace.analyze(made.build()).figures();
    assertThat(f.starts().get(0).outcome()).isEqualTo(Outcome.STALLED);
    assertThat(f.findings()).anySatisfy(x -> assertThat(x.code()).isEqualTo("stall"));
    assertThat(f.starts().get(0).figures().get("i2t_A2s").why()).contains("during the start");
  }

  @Test
  void inTheRunUnderAnotherLoadItIsRunningAlready() {
    MadeTrace made =
        new MadeTrace(40, 50)
            .withThreeReadings(t -> t < 10 ? 110 : t < CUT_S ? 60 : 0)
            .with(
                ChannelName.SPEED,
                t -> t < 10 ? 1475 : t < CUT_S ? 1488 : Math.max(0, 1488 - 200 * (t - CUT_S)));
    StartRecord start = MadeTrace.analyze(made.build()).figures().starts().get(0);
    assertThat(start.outcome()).isEqualTo(Outcome.ALREADY_RUNNING);
    assertThat(start.instants().get("full_speed_s").why()).contains("motor running");
    assertThat(start.stop().instants().get("stop_begin_s").value()).isCloseTo(CUT_S, within(0.04));
  }

  @Test
  void aWaveformThatBeginsDuringTheStartSaysSo() {
    StartRecord start =
        MadeTrace.analyze(
                new MadeTrace(25, 2000).withThreePhase(RecordBeginsLateTest::current, 50).build())
            .figures()
            .starts()
            .get(0);
    assertThat(start.outcome()).isEqualTo(Outcome.COMPLETED);
    assertThat(start.figures().get("start_time_s").why()).contains("begins during the start");
    assertThat(start.figures().get("run_current_A").value()).isCloseTo(80, within(0.1));
  }
}
