package rampwright.analysis.figure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rampwright.analysis.trace.ChannelName;

/** Pauses of the current within a start or a run, in courses of closed form; In 100 A. */
class PausesTest {
  private static final double CUT_S = 30;

  /** Two readings at the slowest rate used. */
  private static final double EDGE_S = 0.2;

  /** A ramp of current from 1.2 to 3 In, a fall within half a second, then 80 A. */
  private static double ramp(double t, double fromS) {
    return t < fromS
        ? 0
        : t < fromS + 8
            ? 120 + 22.5 * (t - fromS)
            : t < fromS + 8.5 ? 300 - 440 * (t - fromS - 8) : t < CUT_S ? 80 : 0;
  }

  private static TraceFigures of(double rateHz, DoubleUnaryOperator amps) {
    return MadeTrace.analyze(new MadeTrace(50, rateHz).withThreeReadings(amps).build()).figures();
  }

  @ParameterizedTest
  @CsvSource({"0.3, 50", "0.3, 10", "0.1, 50", "0.5, 25"})
  void aPulseAPauseAndARampAreOneStart(double pauseS, double rateHz) {
    double rampS = 2.4 + pauseS;
    TraceFigures f = of(rateHz, t -> t >= 2 && t < 2.4 ? 400 : ramp(t, rampS));
    assertThat(f.starts()).hasSize(1);
    StartRecord start = f.starts().get(0);
    assertThat(start.outcome()).isEqualTo(Outcome.COMPLETED);
    assertThat(start.instants().get("inception_s").value()).isCloseTo(2, within(EDGE_S));
    assertThat(start.instants().get("full_speed_s").value())
        .isBetween(rampS + 7.9, rampS + 8.6 + EDGE_S);
    assertThat(start.instants().get("knee_s").value()).isBetween(rampS + 8.2, rampS + 8.6 + EDGE_S);
    assertThat(start.stop().instants().get("stop_begin_s").value())
        .isCloseTo(CUT_S, within(EDGE_S));
    assertThat(f.findings()).noneSatisfy(x -> assertThat(x.code()).isEqualTo("aborted-start"));
  }

  @ParameterizedTest
  @CsvSource({"0.1, 50", "0.3, 50", "0.5, 50", "0.4, 10"})
  void aSupplyLostForAMomentInTheRunIsNoStop(double lossS, double rateHz) {
    TraceFigures f =
        of(
            rateHz,
            t ->
                t >= 20 && t < 20 + lossS
                    ? 0
                    : t >= 20 + lossS && t < 20.3 + lossS ? 500 : ramp(t, 2));
    assertThat(f.starts()).hasSize(1);
    StartRecord start = f.starts().get(0);
    assertThat(start.outcome()).isEqualTo(Outcome.COMPLETED);
    assertThat(start.figures().get("peak_current_A").value()).isLessThan(301);
    assertThat(start.instants().get("full_speed_s").value()).isBetween(9.9, 10.6 + EDGE_S);
    assertThat(start.stop().kind()).isEqualTo(StopKind.COAST);
    assertThat(start.stop().instants().get("stop_begin_s").value())
        .isCloseTo(CUT_S, within(EDGE_S));
  }

  @Test
  void aSupplyLostForAMomentWhileGettingFasterIsOneStart() {
    TraceFigures f =
        MadeTrace.analyze(
                new MadeTrace(50, 50)
                    .withThreeReadings(t -> t >= 6 && t < 6.3 ? 0 : ramp(t, 2))
                    .with(
                        ChannelName.SPEED,
                        t ->
                            t < 2
                                ? 0
                                : t < CUT_S
                                    ? Math.min(1480, 180 * (t - 2))
                                    : Math.max(0, 1480 - 200 * (t - CUT_S)))
                    .build())
            .figures();
    assertThat(f.starts()).hasSize(1);
    assertThat(f.starts().get(0).instants().get("full_speed_s").value())
        .isCloseTo(2 + 0.95 * 1480 / 180, within(0.02));
    assertThat(f.starts().get(0).stop().instants().get("stop_begin_s").value())
        .isCloseTo(CUT_S, within(0.04));
  }

  /** 1.2 s without current: with the speed kept and the supply gone it is one run. */
  @ParameterizedTest
  @CsvSource({"1450, 0, 1", "1450, 400, 2", "700, 0, 2"})
  void aLongerPauseIsBridgedOnlyWhileTheShaftTurnsOnALostSupply(
      double speedAfterRpm, double volts, int starts) {
    MadeTrace made =
        new MadeTrace(50, 50)
            .withThreeReadings(t -> t >= 20 && t < 21.2 ? 0 : ramp(t, 2))
            .with(
                ChannelName.SPEED,
                t ->
                    t < 2
                        ? 0
                        : t < 20
                            ? Math.min(1480, 180 * (t - 2))
                            : t < 21.2
                                ? 1480 - (1480 - speedAfterRpm) * (t - 20) / 1.2
                                : t < CUT_S
                                    ? Math.min(1480, speedAfterRpm + 500 * (t - 21.2))
                                    : Math.max(0, 1480 - 200 * (t - CUT_S)));
    for (ChannelName line : ChannelName.LINE_VOLTAGES) {
      made.with(line, t -> t >= 20 && t < 21.2 ? volts : 400);
    }
    assertThat(MadeTrace.analyze(made.build()).figures().starts()).hasSize(starts);
  }

  @Test
  void aWaveformPulseAndPauseAreOneStart() {
    TraceFigures f =
        MadeTrace.analyze(
                new MadeTrace(20, 2000)
                    .withThreePhase(
                        t -> t >= 1 && t < 1.4 ? 400 : t < 1.7 ? 0 : t < 6 ? 300 : t < 15 ? 80 : 0,
                        50)
                    .build())
            .figures();
    assertThat(f.starts()).hasSize(1);
    assertThat(f.starts().get(0).instants().get("inception_s").value()).isCloseTo(1, within(0.01));
    assertThat(f.starts().get(0).instants().get("full_speed_s").value()).isCloseTo(6, within(0.1));
  }
}
