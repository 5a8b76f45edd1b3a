package rampwright.analysis.figure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Trace;

/**
 * A meter that averages over several of its readings: the same start and coasting stop whatever it
 * averages over, within what is stated.
 *
 * <p>Reference: the course itself, a step to 350 A, a run at 80 A, current cut; the mean square
 * over a span in closed form.
 */
class AveragingMeterTest {
  private static final double BEGIN_S = 3.03;
  private static final double FULL_S = 9.0;
  private static final double END_S = 18.94;

  /** Jitter-free readings tell the span of a straight line to a part of an interval. */
  private static final double SPAN_TOLERANCE = 0.15;

  /** Integral of the square of the current up to an instant. */
  private static double energy(double t) {
    double start = Math.max(0, Math.min(t, FULL_S) - BEGIN_S);
    double run = Math.max(0, Math.min(t, END_S) - FULL_S);
    return 350 * 350 * start + 80 * 80 * run;
  }

  private static DoubleUnaryOperator averaged(double spanS, boolean about) {
    return t -> {
      double toS = about ? t + spanS / 2 : t;
      return Math.sqrt(Math.max(0, energy(toS) - energy(toS - spanS)) / spanS);
    };
  }

  private static Trace trace(double rateHz, double spanS, boolean about) {
    return new MadeTrace(26, rateHz)
        .withThreeReadings(averaged(spanS, about))
        .with(
            ChannelName.SPEED,
            t ->
                t < END_S
                    ? Math.max(0, Math.min(1480, 1480 * (t - BEGIN_S) / (FULL_S - BEGIN_S)))
                    : Math.max(0, 1480 - 300 * (t - END_S)))
        .build();
  }

  @ParameterizedTest
  @CsvSource({
    "50, 0.2, true",
    "50, 0.2, false",
    "25, 0.3, true",
    "10, 0.5, false",
    "10, 1.0, false",
    "10, 1.0, true",
    "4, 0.5, false",
    "20, 0.1, false"
  })
  void figuresAreThoseOfTheCourse(double rateHz, double spanS, boolean about) {
    StartRecord start = MadeTrace.analyze(trace(rateHz, spanS, about)).figures().starts().get(0);
    assertThat(start.outcome()).isEqualTo(Outcome.COMPLETED);
    StopRecord stop = start.stop();
    assertThat(stop.kind()).as("the meter's tail is no soft stop").isEqualTo(StopKind.COAST);
    double startS = 0.95 * (FULL_S - BEGIN_S);
    within2u("inception", start.instants().get("inception_s"), BEGIN_S);
    within2u("release", stop.instants().get("release_s"), END_S);
    within2u("stop begin", stop.instants().get("stop_begin_s"), END_S);
    within2u("start time", start.figures().get("start_time_s"), startS);
    within2u("i2t", start.figures().get("i2t_A2s"), 350 * 350 * startS);
    within2u("rms", start.figures().get("rms_current_A"), 350);
    within2u("speed at release", stop.figures().get("speed_at_release_pct"), 100);
  }

  @ParameterizedTest
  @CsvSource({"50, 0.2", "10, 0.5", "10, 1.0", "20, 0.25"})
  void theSpanIsToldFromTheTail(double rateHz, double spanS) {
    Measured release =
        MadeTrace.analyze(trace(rateHz, spanS, false))
            .figures()
            .starts()
            .get(0)
            .stop()
            .instants()
            .get("release_s");
    // A quarter of the span is open: stamped at its end or its middle.
    assertThat(release.uncertainty())
        .isCloseTo(
            Math.hypot(spanS / 4, 1 / rateHz / Math.sqrt(12)), within(SPAN_TOLERANCE * spanS));
  }

  @Test
  void aCurrentThatFallsInASlowStopIsNoTail() {
    // 4 s from the run's 80 A down in proportion, at 20 readings a second.
    Trace trace =
        new MadeTrace(26, 20)
            .withThreeReadings(
                t ->
                    t < BEGIN_S
                        ? 0
                        : t < FULL_S ? 350 : t < 15 ? 80 : Math.max(0, 80 - 20 * (t - 15)))
            .build();
    StartRecord start = MadeTrace.analyze(trace).figures().starts().get(0);
    assertThat(start.stop().kind()).isEqualTo(StopKind.SOFT);
    Map<String, Measured> instants = start.stop().instants();
    assertThat(instants.get("stop_begin_s").value()).isCloseTo(15, within(0.5));
    assertThat(start.instants().get("inception_s").uncertainty()).isLessThan(0.03);
  }

  private static void within2u(String what, Measured measured, double truth) {
    assertThat(measured.value()).as(what + " " + measured.why()).isNotNull();
    assertThat(measured.value()).as(what).isCloseTo(truth, within(2 * measured.uncertainty()));
  }
}
