package rampwright.analysis.figure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.trace.ChannelName;

/**
 * What the load does in the run is neither a stop nor a part of the start. Courses of closed form:
 * 350 A from 2 s to 7 s, then the run; In 100 A, 1480 rpm.
 */
class LoadInTheRunTest {
  private static final double INCEPTION_S = 2;
  private static final double FULL_S = 7;
  private static final double CUT_S = 40;

  /** Instants: two readings, the sharpest that edges between readings can be told. */
  private static final double EDGE_S = 0.04;

  private static double start(double t, DoubleUnaryOperator run, double untilS) {
    return t < INCEPTION_S || t >= untilS
        ? 0
        : t < FULL_S ? 350 : t < FULL_S + 0.5 ? 350 - 540 * (t - FULL_S) : run.applyAsDouble(t);
  }

  private static double speed(double t, DoubleUnaryOperator run, double untilS) {
    return t < INCEPTION_S
        ? 0
        : t < FULL_S
            ? 1480 * (t - INCEPTION_S) / (FULL_S - INCEPTION_S)
            : t < untilS
                ? run.applyAsDouble(t)
                : Math.max(0, run.applyAsDouble(untilS) - 200 * (t - untilS));
  }

  private static StartRecord only(MadeTrace made) {
    TraceFigures f = MadeTrace.analyze(made.build()).figures();
    assertThat(f.starts()).hasSize(1);
    return f.starts().get(0);
  }

  private static double at(StartRecord start, String key) {
    Measured m = start.instants().get(key);
    return m.value() == null ? Double.NaN : m.value();
  }

  /** From 80 A to another load at 20 s, to the end: the speed follows the slip. */
  @ParameterizedTest
  @CsvSource({
    "120, 1470, true",
    "120, 1455, true",
    "45, 1489, true",
    "120, 1470, false",
    "45, 1489, false"
  })
  void anotherLoadIsNoStop(double laterA, double laterRpm, boolean withSpeed) {
    MadeTrace made =
        new MadeTrace(60, 50).withThreeReadings(t -> start(t, s -> s < 20 ? 80 : laterA, CUT_S));
    if (withSpeed) {
      made.with(ChannelName.SPEED, t -> speed(t, s -> s < 20 ? 1480 : laterRpm, CUT_S));
    }
    StartRecord start = only(made);
    assertThat(start.outcome()).isEqualTo(Outcome.COMPLETED);
    assertThat(start.stop().kind()).isEqualTo(StopKind.COAST);
    assertThat(start.stop().instants().get("stop_begin_s").value())
        .isCloseTo(CUT_S, within(EDGE_S));
    assertThat(start.figures().get("run_current_A").value()).isCloseTo(laterA, within(0.5));
  }

  /** A jam of two seconds with the motor hardly slower, three seconds before the cut. */
  @ParameterizedTest
  @ValueSource(booleans = {true, false})
  void aJamShortlyBeforeTheCutIsNoSoftStop(boolean withSpeed) {
    MadeTrace made =
        new MadeTrace(60, 50)
            .withThreeReadings(t -> start(t, s -> s > 35 && s < 37 ? 240 : 80, CUT_S));
    if (withSpeed) {
      made.with(ChannelName.SPEED, t -> speed(t, s -> s > 35 && s < 37 ? 1440 : 1480, CUT_S));
    }
    StartRecord start = only(made);
    assertThat(start.stop().kind()).isEqualTo(StopKind.COAST);
    assertThat(start.stop().instants().get("stop_begin_s").value())
        .isCloseTo(CUT_S, within(EDGE_S));
  }

  /** A piston: the current swings by a share, so many times a second. */
  @ParameterizedTest
  @CsvSource({
    "0.10, 1.0, 50, true", "0.20, 1.0, 50, true", "0.15, 2.3, 50, true", "0.20, 5.0, 50, true",
    "0.20, 3.1, 20, true", "0.10, 1.0, 50, false", "0.20, 1.0, 50, false", "0.15, 2.3, 25, false",
    "0.20, 5.0, 50, false", "0.20, 3.1, 100, false"
  })
  void aSwingingCurrentHasARunLevelAndNoSoftStop(
      double share, double hz, double rateHz, boolean withSpeed) {
    Random noise = new Random(17);
    DoubleUnaryOperator swing =
        t -> 80 * (1 + share * Math.sin(2 * Math.PI * hz * t)) + 0.3 * noise.nextGaussian();
    MadeTrace made = new MadeTrace(60, rateHz).withThreeReadings(t -> start(t, swing, CUT_S));
    if (withSpeed) {
      made.with(
          ChannelName.SPEED,
          t -> speed(t, s -> 1480 - 6 * share * Math.sin(2 * Math.PI * hz * s), CUT_S));
    }
    StartRecord start = only(made);
    assertThat(start.outcome()).isEqualTo(Outcome.COMPLETED);
    assertThat(start.stop().kind()).isEqualTo(StopKind.COAST);
    assertThat(start.stop().instants().get("stop_begin_s").value())
        .isCloseTo(CUT_S, within(1.5 / rateHz));
    Measured level = start.figures().get("run_current_A");
    // The median of a sine over whole periods is its mean; a tenth of the swing for odd readings.
    assertThat(level.value()).as(level.why()).isCloseTo(80, within(8 * share + 0.3));
  }

  /** The swing stays while the stop's current rises by 20 A a second and the speed falls. */
  @ParameterizedTest
  @ValueSource(booleans = {true, false})
  void aSoftStopOfASwingingLoadIsFound(boolean withSpeed) {
    DoubleUnaryOperator swing = t -> 80 * (1 + 0.15 * Math.sin(2 * Math.PI * 2 * t));
    MadeTrace made =
        new MadeTrace(60, 50)
            .withThreeReadings(
                t -> start(t, s -> swing.applyAsDouble(s) + 20 * Math.max(0, s - 30), 36));
    if (withSpeed) {
      made.with(ChannelName.SPEED, t -> speed(t, s -> 1480 - 60 * Math.max(0, s - 30), 36));
    }
    StartRecord start = only(made);
    assertThat(start.stop().kind()).isEqualTo(StopKind.SOFT);
    Measured begin = start.stop().instants().get("stop_begin_s");
    assertThat(begin.value()).isCloseTo(30, within(2 * begin.uncertainty()));
    assertThat(begin.uncertainty()).isLessThan(0.9);
  }

  /** Without speed: a jam (stronger than the start) and a heavier load later move no instant. */
  @ParameterizedTest
  @CsvSource({"240, 80, 80", "500, 80, 80", "80, 130, 80", "80, 40, 80", "300, 125, 80"})
  void whatFollowsMovesNeitherFullSpeedNorKnee(double jamA, double laterA, double runA) {
    StartRecord plain =
        only(new MadeTrace(60, 50).withThreeReadings(t -> start(t, s -> runA, CUT_S)));
    StartRecord start =
        only(
            new MadeTrace(60, 50)
                .withThreeReadings(
                    t -> start(t, s -> s > 15 && s < 17 ? jamA : s > 25 ? laterA : runA, CUT_S)));
    for (String key : new String[] {"full_speed_s", "knee_s", "settled_s"}) {
      assertThat(at(start, key)).as(key).isCloseTo(at(plain, key), within(0.06));
      assertThat(at(start, key)).as(key).isBetween(FULL_S, FULL_S + 0.6);
    }
  }
}
