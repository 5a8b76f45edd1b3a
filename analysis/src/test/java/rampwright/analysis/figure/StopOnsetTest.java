package rampwright.analysis.figure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.trace.ChannelName;

/**
 * Soft stops whose beginning changes the current by a few percent only: 350 A from 2 to 7 s, then
 * 80 A, three phases with 0.3 % of noise each; In 100 A.
 */
class StopOnsetTest {
  private static final double ORDER_S = 20;

  private static StopRecord stop(
      double rateHz, DoubleUnaryOperator tail, double untilS, DoubleUnaryOperator rpm) {
    Random noise = new Random(11);
    MadeTrace made = new MadeTrace(45, rateHz);
    for (ChannelName phase : ChannelName.CURRENTS) {
      made.with(
          phase,
          t ->
              t < 2 || t >= untilS
                  ? 0
                  : (t < 7 ? 350 : t < ORDER_S ? 80 : tail.applyAsDouble(t - ORDER_S))
                      * (1 + 0.003 * noise.nextGaussian()));
    }
    if (rpm != null) {
      made.with(ChannelName.SPEED, rpm);
    }
    TraceFigures f = MadeTrace.analyze(made.build()).figures();
    assertThat(f.starts()).hasSize(1);
    return f.starts().get(0).stop();
  }

  private static void within2u(StopRecord stop) {
    Measured begin = stop.instants().get("stop_begin_s");
    assertThat(begin.value()).as(begin.rule()).isCloseTo(20, within(2 * begin.uncertainty()));
  }

  /** 0.3 s in which the current rises by 5 %: two or three whole readings at 20 a second. */
  @ParameterizedTest
  @ValueSource(doubles = {20, 25, 50})
  void aShortSoftStopShowsInItsLastReadings(double rateHz) {
    StopRecord stop = stop(rateHz, s -> 80 + 14 * Math.max(0, s - 0.05), 20.3, null);
    assertThat(stop.kind()).isEqualTo(StopKind.SOFT);
    within2u(stop);
  }

  @ParameterizedTest
  @ValueSource(doubles = {10, 25, 100})
  void aCutAtOnceStaysACoast(double rateHz) {
    StopRecord stop = stop(rateHz, s -> 80, 20.3, null);
    assertThat(stop.kind()).isEqualTo(StopKind.COAST);
    assertThat(stop.instants().get("stop_begin_s").value()).isCloseTo(20.3, within(1 / rateHz));
  }

  /** A dip of 2.5 % for half a second comes before the rise: it is where the stop began. */
  @Test
  void theDipBeforeTheRiseIsTheBeginning() {
    StopRecord stop = stop(25, s -> s < 0.1 ? 80 : s < 0.6 ? 78 : 78 + 20 * (s - 0.6), 23, null);
    assertThat(stop.kind()).isEqualTo(StopKind.SOFT);
    within2u(stop);
    assertThat(stop.instants().get("stop_begin_s").rule()).contains("scatter");
  }

  /** A hump of 105 A flat for three seconds, reached in five: no new load, a slow stop. */
  @Test
  void theFlatTopOfASlowStopIsNoNewLoad() {
    DoubleUnaryOperator hump = s -> s < 5 ? 80 + 5 * s : s < 8.3 ? 105 : 105 - 8 * (s - 8.3);
    StopRecord stop = stop(25, hump, 29, null);
    assertThat(stop.kind()).isEqualTo(StopKind.SOFT);
    within2u(stop);
  }

  /** The shaft is at rest a second before the starter lets go: the figures say so. */
  @Test
  void restBeforeTheReleaseIsSaid() {
    StopRecord stop =
        stop(
            50,
            s -> 80 + 15 * s,
            26,
            t ->
                t < 2
                    ? 0
                    : t < 7
                        ? 296 * (t - 2)
                        : Math.max(0, Math.rint(1480 - 296 * Math.max(0, t - 20))));
    Measured stopTime = stop.figures().get("stop_time_s");
    Measured controlled = stop.figures().get("controlled_time_s");
    assertThat(stopTime.value()).isLessThan(controlled.value());
    assertThat(stop.figures().get("speed_at_release_pct").value()).isCloseTo(0, within(1e-9));
    // At rest the channel shows no noise, but it does not see less than its own step.
    assertThat(stop.figures().get("speed_at_release_pct").uncertainty()).isPositive();
    for (String key : new String[] {"stop_time_s", "controlled_time_s", "speed_at_release_pct"}) {
      assertThat(stop.figures().get(key).rule())
          .as(key)
          .contains("at rest 1.0")
          .contains("before the starter let go");
    }
  }

  /**
   * A lightly loaded motor: the current first falls by a tenth, then comes up to a tenth above the
   * run, flat as a run for a while, and is cut.
   */
  @Test
  void theFlatTopOfALowHumpIsNoRun() {
    StopRecord stop =
        stop(
            25,
            s ->
                s < 0.6
                    ? 80 - 12 * s
                    : s < 1.0 ? 72.8 : s < 2.0 ? 72.8 + 15 * (s - 1) : 87.8 - 0.8 * (s - 2),
            22.8,
            null);
    assertThat(stop.kind()).isEqualTo(StopKind.SOFT);
    within2u(stop);
  }

  /** A hump of three seconds: level at its top, as wide as a plateau, far from straight. */
  @Test
  void theTopOfALongHumpIsNoRun() {
    StopRecord stop = stop(10, s -> 80 + 60 * Math.sin(Math.PI * s / 4.5), 24, null);
    assertThat(stop.kind()).isEqualTo(StopKind.SOFT);
    within2u(stop);
  }

  /** A shaft that overshoots by 4 % on arrival does not leave its run when it settles. */
  @Test
  void settlingAfterAnOvershootIsNoStop() {
    StopRecord stop =
        stop(
            50,
            s -> 80,
            20.0,
            t ->
                t < 2
                    ? 0
                    : t < 7
                        ? 300 * (t - 2)
                        : t < 20
                            ? 1460 + 60 * Math.exp(-(t - 7) / 2)
                            : Math.max(0, 1460 - 300 * (t - 20)));
    assertThat(stop.kind()).isEqualTo(StopKind.COAST);
    within2u(stop);
  }
}
