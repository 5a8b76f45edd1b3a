package rampwright.analysis.figure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Trace;
import rampwright.analysis.trace.TraceKind;

class SplittingTest {
  /** 350 A for 5 s, then 80 A, speed up linearly; beginning at {@code atS}. */
  private static double current(double t, double atS, double endS) {
    return t < atS || t >= endS ? 0 : t < atS + 5 ? 350 : 80;
  }

  private static double speed(double t, double atS, double endS) {
    if (t < atS) {
      return 0;
    }
    if (t >= endS) {
      return Math.max(0, 1480 - 300 * (t - endS));
    }
    return Math.min(1480, 1480 * (t - atS) / 5);
  }

  private static TraceFigures of(
      double lengthS, DoubleUnaryOperator amps, DoubleUnaryOperator rpm) {
    Trace trace =
        new MadeTrace(lengthS, 50).withThreeReadings(amps).with(ChannelName.SPEED, rpm).build();
    return MadeTrace.analyze(trace).figures();
  }

  @Test
  void oneTraceMayHoldSeveralStarts() {
    TraceFigures f =
        of(
            60,
            t -> current(t, 2, 15) + current(t, 30, 45),
            t -> t < 29 ? speed(t, 2, 15) : speed(t, 30, 45));
    assertThat(f.starts()).hasSize(2);
    assertThat(f.starts()).allSatisfy(s -> assertThat(s.outcome()).isEqualTo(Outcome.COMPLETED));
    assertThat(f.starts().get(1).instants().get("inception_s").value()).isCloseTo(30, within(0.02));
    assertThat(f.starts().get(0).stop().kind()).isEqualTo(StopKind.COAST);
    // Five seconds of coasting at 300 rpm a second, to 1 % of 1480.
    assertThat(f.starts().get(0).stop().figures().get("stop_time_s").value())
        .isCloseTo((1480 - 14.8) / 300, within(0.03));
  }

  @Test
  void aSecondStartWithinTheHourIsFoundTooSoon() {
    TraceFigures f =
        of(
            60,
            t -> current(t, 2, 15) + current(t, 30, 45),
            t -> t < 29 ? speed(t, 2, 15) : speed(t, 30, 45));
    assertThat(f.findings()).anySatisfy(x -> assertThat(x.code()).isEqualTo("repeat-too-soon"));
  }

  @Test
  void aRecordThatBeginsRunningHasNoStartButItsStop() {
    TraceFigures f =
        of(20, t -> t < 10 ? 80 : 0, t -> Math.max(0, t < 10 ? 1480 : 1480 - 300 * (t - 10)));
    StartRecord only = f.starts().get(0);
    assertThat(only.outcome()).isEqualTo(Outcome.ALREADY_RUNNING);
    assertThat(only.figures().get("start_time_s").value()).isNull();
    assertThat(only.figures().get("start_time_s").why()).contains("begins with the motor running");
    assertThat(only.stop().figures().get("stop_time_s").value())
        .isCloseTo((1480 - 14.8) / 300, within(0.03));
  }

  @Test
  void aStartThatMakesNoProgressIsStalled() {
    TraceFigures f = of(30, t -> t < 2 || t > 22 ? 0 : 400, t -> 0);
    assertThat(f.starts().get(0).outcome()).isEqualTo(Outcome.STALLED);
    assertThat(f.findings()).anySatisfy(x -> assertThat(x.code()).isEqualTo("stall"));
    assertThat(f.starts().get(0).figures().get("start_time_s").value()).isNull();
    assertThat(f.starts().get(0).figures().get("i2t_ratio_s").value())
        .isCloseTo(16 * 20, within(1.0));
    assertThat(f.starts().get(0).stop().figures().get("stop_time_s").why())
        .contains("did not turn");
  }

  @Test
  void aStartCutWhileGettingFasterIsAborted() {
    TraceFigures f =
        of(
            20,
            t -> t < 2 || t > 4 ? 0 : 400,
            t -> t < 2 ? 0 : t < 4 ? 200 * (t - 2) : Math.max(0, 400 - 100 * (t - 4)));
    assertThat(f.starts().get(0).outcome()).isEqualTo(Outcome.ABORTED);
    assertThat(f.findings()).anySatisfy(x -> assertThat(x.code()).isEqualTo("aborted-start"));
  }

  /** A heavy fan at its current limit gains its last percent so slowly that it seems to stand. */
  @Test
  void aSlowStartCutAtItsLimitIsNoRun() {
    MadeTrace made =
        new MadeTrace(40, 25)
            .withThreeReadings(t -> t < 2 || t > 32 ? 0 : 250 - t)
            .with(
                ChannelName.SPEED,
                t ->
                    t < 2
                        ? 0
                        : t < 32
                            ? 1340 * (1 - Math.exp(-(t - 2) / 6))
                            : Math.max(0, 1330 - 60 * (t - 32)));
    StartRecord start = MadeTrace.analyze(made.build()).figures().starts().get(0);
    assertThat(start.outcome()).isNotEqualTo(Outcome.COMPLETED);
    assertThat(start.instants().get("full_speed_s").value()).isNull();
  }

  @Test
  void aTraceThatEndsDuringTheStartIsCutOff() {
    TraceFigures f = of(5, t -> t < 2 ? 0 : 400, t -> t < 2 ? 0 : 200 * (t - 2));
    assertThat(f.starts().get(0).outcome()).isEqualTo(Outcome.CUT_OFF);
    assertThat(f.starts().get(0).stop()).isNull();
  }

  @Test
  void aLoadJamInTheRunIsNoNewStartAndNoStop() {
    TraceFigures f =
        of(
            40,
            t -> t > 15 && t < 17 ? 240 : current(t, 2, 30),
            t -> t > 15 && t < 17 ? 1470 : speed(t, 2, 30));
    assertThat(f.starts()).hasSize(1);
    assertThat(f.starts().get(0).stop().instants().get("stop_begin_s").value())
        .isCloseTo(30, within(0.03));
  }

  @Test
  void aSoftStopIsDatedWhereTheRunEnds() {
    // From 20 s on the current rises by 20 A a second and the speed falls; release at 26 s.
    TraceFigures f =
        of(
            40,
            t -> t < 20 ? current(t, 2, 99) : t < 26 ? 80 + 20 * (t - 20) : 0,
            t -> t < 20 ? speed(t, 2, 99) : Math.max(0, 1480 - 100 * (t - 20)));
    StopRecord stop = f.starts().get(0).stop();
    assertThat(stop.kind()).isEqualTo(StopKind.SOFT);
    // Here it shows at once; an order is taken to show late, by 0.08 s and 2 % of the six seconds.
    double begin = stop.instants().get("stop_begin_s").value();
    double u = stop.instants().get("stop_begin_s").uncertainty();
    assertThat(begin + 0.08 + 0.02 * 6).isCloseTo(20, within(0.05));
    assertThat(begin).isCloseTo(20, within(2 * u));
    assertThat(stop.figures().get("controlled_time_s").value()).isCloseTo(6, within(2 * u));
    // A straight fall of 100 rpm a second: 80 % of 1480 rpm takes 11.84 s, 6.757 % a second.
    assertThat(stop.figures().get("stop_90_10_s").value()).isCloseTo(11.84, within(0.01));
    assertThat(stop.figures().get("stop_deceleration_pct_per_s").value())
        .isCloseTo(100 / 14.8, within(0.01));
    assertThat(stop.figures().get("speed_at_release_pct").value())
        .isCloseTo(100 * 880 / 1480.0, within(0.2));
  }

  @Test
  void steadyRunningIsNoStart() {
    Trace steady = new MadeTrace(3, 2000).withThreePhase(t -> 80, 50).build();
    TraceFigures f = MadeTrace.analyze(steady).figures();
    assertThat(f.kind()).isEqualTo(TraceKind.WAVEFORM);
    assertThat(f.starts()).hasSize(1);
    assertThat(f.starts().get(0).outcome()).isEqualTo(Outcome.ALREADY_RUNNING);
    assertThat(f.findings()).isEmpty();
  }

  @Test
  void aCorrectedInstantReplacesWhatWasFoundAndSaysSo() {
    Trace trace =
        new MadeTrace(20, 50)
            .withThreeReadings(t -> current(t, 2, 18))
            .with(ChannelName.SPEED, t -> speed(t, 2, 18))
            .build();
    AnalysisOptions options =
        new AnalysisOptions(
            java.util.Map.of("full_speed_s", 6.0), "pickup slipped", Thresholds.DEFAULT, null);
    StartRecord start =
        TraceAnalyzer.analyze(trace, MadeTrace.motor(), options).figures().starts().get(0);
    assertThat(start.instants().get("full_speed_s").value()).isEqualTo(6.0);
    assertThat(start.instants().get("full_speed_s").rule())
        .contains("corrected")
        .contains("slipped");
    assertThat(start.figures().get("start_time_s").value()).isCloseTo(4.0, within(0.011));
  }

  @Test
  void withoutANameplateRatiosAreMissingWithTheirReason() {
    Trace trace = new MadeTrace(20, 50).withThreeReadings(t -> current(t, 2, 18)).build();
    StartRecord start =
        TraceAnalyzer.analyze(trace, MotorContext.UNKNOWN, AnalysisOptions.DEFAULT)
            .figures()
            .starts()
            .get(0);
    assertThat(start.outcome()).isEqualTo(Outcome.COMPLETED);
    assertThat(start.figures().get("peak_current_A").value()).isCloseTo(350, within(1e-9));
    assertThat(start.figures().get("peak_current_ratio").why()).contains("rated current");
    assertThat(start.instants().get("full_speed_s").rule()).startsWith("current fall");
  }

  @Test
  void everyFigureHasAValueWithItsWindowOrAReason() {
    List<TraceFigures> all =
        List.of(
            of(20, t -> current(t, 2, 18), t -> speed(t, 2, 18)),
            of(5, t -> t < 2 ? 0 : 400, t -> 0),
            of(20, t -> t < 10 ? 80 : 0, t -> 1480));
    for (TraceFigures f : all) {
      for (StartRecord start : f.starts()) {
        start
            .figures()
            .forEach(
                (key, m) -> {
                  if (m.value() == null) {
                    assertThat(m.why()).as(key).isNotBlank();
                  } else {
                    assertThat(m.fromS()).as(key).isNotNull();
                    assertThat(m.toS()).as(key).isNotNull();
                    assertThat(m.rule()).as(key).isNotBlank();
                  }
                });
      }
    }
  }

  @Test
  void aShaftThatHuntsAboveItsSpeedBeforeItKeepsItHasRun() {
    // Swings of 6 % about the speed it then keeps, as behind a regulator that overshoots.
    TraceFigures f =
        of(
            20,
            t -> current(t, 2, 15),
            t ->
                t < 7 || t > 9 ? speed(t, 2, 15) : 1480 + 90 * Math.sin(2 * Math.PI * 4 * (t - 7)));
    assertThat(f.starts()).hasSize(1);
    assertThat(f.starts().get(0).outcome()).isEqualTo(Outcome.COMPLETED);
    assertThat(f.starts().get(0).instants().get("full_speed_s").value())
        .isCloseTo(2 + 0.95 * 5, within(0.03));
  }

  @Test
  void aPhaseLostOnTheWayEndsNoStartWellThoughTheCurrentFallsToARuns() {
    // From 4 s on L1 carries nothing and the others fall to 110 A at once, then climb again.
    DoubleUnaryOperator others = t -> t < 2 || t > 12 ? 0 : t < 4 ? 320 : 110 + 2 * (t - 4);
    MadeTrace made = new MadeTrace(16, 50).withThreeReadings(others);
    TraceFigures lost =
        MadeTrace.analyze(
                made.with(ChannelName.I1, t -> t < 4 ? others.applyAsDouble(t) : 0).build())
            .figures();
    assertThat(lost.starts().get(0).outcome()).isEqualTo(Outcome.STALLED);
    assertThat(lost.findings()).anySatisfy(x -> assertThat(x.code()).isEqualTo("phase-missing"));
  }

  @Test
  void aLeadOfTheMeterThatComesOffSpoilsNoStart() {
    DoubleUnaryOperator others = t -> current(t, 2, 12);
    MadeTrace made = new MadeTrace(16, 50).withThreeReadings(others);
    TraceFigures off =
        MadeTrace.analyze(
                made.with(ChannelName.I1, t -> t < 4 ? others.applyAsDouble(t) : 0).build())
            .figures();
    assertThat(off.starts().get(0).outcome()).isEqualTo(Outcome.COMPLETED);
  }
}
