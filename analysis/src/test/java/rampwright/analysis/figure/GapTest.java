package rampwright.analysis.figure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.trace.ChannelName;

/** What a figure makes of readings that are not there. */
class GapTest {
  // 400 A to 2 s, 200 A to 5 s, then a run of 80 A: i2t to full speed in closed form.
  private static final DoubleUnaryOperator COURSE =
      t -> t < 1 || t > 9 ? 0 : t < 2 ? 400 : t < 5 ? 200 : 80;

  private static MadeTrace readings() {
    return new MadeTrace(11, 20)
        .withThreeReadings(COURSE)
        .with(ChannelName.SPEED, t -> t < 1 ? 0 : Math.min(1480, 370 * (t - 1)));
  }

  private static MadeTrace lost(MadeTrace made, ChannelName name, double fromS, double toS) {
    return made.with(name, t -> t > fromS && t < toS ? Double.NaN : COURSE.applyAsDouble(t));
  }

  private static StartRecord start(MadeTrace made) {
    return MadeTrace.analyze(made.build()).figures().starts().get(0);
  }

  @Test
  void theRemainingPhasesServeInALongGapOfOne() {
    StartRecord whole = start(readings());
    // The gap begins at 400 A and ends at 200 A: a line between would make much more of it.
    StartRecord lost = start(lost(readings(), ChannelName.I2, 1.8, 3.4));
    Measured i2t = lost.figures().get("i2t_A2s");
    Measured true2t = whole.figures().get("i2t_A2s");
    assertThat(i2t.value()).isCloseTo(true2t.value(), within(1.0));
    assertThat(i2t.phases().get("L2")).isCloseTo(true2t.phases().get("L2"), within(1.0));
    assertThat(i2t.uncertainty()).isGreaterThan(true2t.uncertainty());
    assertThat(i2t.rule()).contains("gap").contains("i2").contains("1.80 s");
    assertThat(lost.figures().get("peak_current_A").rule()).contains("gap");
    assertThat(whole.figures().get("i2t_A2s").rule()).doesNotContain("gap");
  }

  @Test
  void threeMissingReadingsAreClosedWithoutAWord() {
    StartRecord lost = start(lost(readings(), ChannelName.I2, 3.01, 3.16));
    assertThat(lost.figures().get("i2t_A2s").rule()).doesNotContain("gap");
  }

  @Test
  void aGapOfOnePhaseIsFound() {
    assertThat(
            MadeTrace.analyze(lost(readings(), ChannelName.I2, 1.8, 3.4).build())
                .figures()
                .findings())
        .filteredOn(f -> f.code().equals("gap"))
        .singleElement()
        .satisfies(
            f -> {
              assertThat(f.text()).contains("i2");
              assertThat(f.toS() - f.fromS()).isCloseTo(1.6, within(0.11));
            });
  }

  @Test
  void aGapOfAllPhasesIsOneFinding() {
    MadeTrace made = readings();
    for (ChannelName phase : ChannelName.CURRENTS) {
      lost(made, phase, 3, 3.6);
    }
    assertThat(MadeTrace.analyze(made.build()).figures().findings())
        .filteredOn(f -> f.code().equals("gap"))
        .hasSize(1);
  }

  @Test
  void aPhaseReadForLessThanHalfTheStartDoesNotCount() {
    StartRecord lost = start(lost(readings(), ChannelName.I2, 1.5, 20));
    Measured i2t = lost.figures().get("i2t_A2s");
    assertThat(i2t.phases()).containsOnlyKeys("L1", "L3");
    assertThat(i2t.rule()).contains("2 phases").contains("gap");
  }

  @Test
  void aPeakThatMayLieInAGapIsLessSure() {
    MadeTrace made = readings();
    for (ChannelName phase : ChannelName.CURRENTS) {
      lost(made, phase, 1.2, 1.8);
    }
    Measured peak = start(made).figures().get("peak_current_A");
    assertThat(peak.uncertainty())
        .isGreaterThan(3 * start(readings()).figures().get("peak_current_A").uncertainty());
  }

  private static MadeTrace wave(DoubleUnaryOperator lost) {
    DoubleUnaryOperator course = t -> t < 1 || t > 8 ? 0 : t < 4 ? 350 : 80;
    MadeTrace made = new MadeTrace(9, 4000);
    for (int p = 0; p < 3; p++) {
      double lag = p * 2 * Math.PI / 3;
      made.with(
          ChannelName.CURRENTS.get(p),
          t ->
              lost.applyAsDouble(t)
                  + Math.sqrt(2) * course.applyAsDouble(t) * Math.sin(2 * Math.PI * 50 * t - lag));
    }
    return made;
  }

  @Test
  void aCycleOfWhichHalfIsMissingHasNoRms() {
    // Of each cycle around 2 s the half around the zeros of i1 is lost: what is left is the tops.
    DoubleUnaryOperator tops =
        t ->
            t > 2 && t < 2.2 && Math.abs(Math.sin(2 * Math.PI * 50 * t)) < Math.sqrt(0.5)
                ? Double.NaN
                : 0;
    Measured peak = start(wave(tops)).figures().get("peak_current_A");
    Measured whole = start(wave(t -> 0)).figures().get("peak_current_A");
    assertThat(peak.value()).isCloseTo(whole.value(), within(0.001 * whole.value()));
  }

  @Test
  void lostSamplesDoNotChangeTheIntegral() {
    Measured whole = start(wave(t -> 0)).figures().get("i2t_A2s");
    Measured lost =
        start(wave(t -> t > 2.003 && t < 2.2 ? Double.NaN : 0)).figures().get("i2t_A2s");
    assertThat(lost.value()).isCloseTo(whole.value(), within(0.01 * whole.value()));
    assertThat(lost.uncertainty()).isGreaterThan(whole.uncertainty());
    assertThat(lost.rule()).contains("gap");
  }

  @Test
  void aReadingThatIsMissingWhereCurrentBeginsIsNotMadeUp() {
    // The last reading at rest, of one phase: a line to the first flowing one would begin sooner.
    StartRecord lost = start(lost(readings(), ChannelName.I2, 0.94, 0.96));
    assertThat(lost.instants().get("inception_s"))
        .isEqualTo(start(readings()).instants().get("inception_s"));
  }

  @Test
  void samplesThatAreMissingHereAndThereChangeNoInstantOfAWaveform() {
    Random random = new Random(4);
    MadeTrace whole = new MadeTrace(8, 4000).withThreePhase(t -> wave(t), 50);
    MadeTrace lost = new MadeTrace(8, 4000).withThreePhase(t -> wave(t), 50);
    for (int p = 0; p < 3; p++) {
      double lag = p * 2 * Math.PI / 3;
      lost.with(
          ChannelName.CURRENTS.get(p),
          t ->
              random.nextDouble() < 0.05
                  ? Double.NaN
                  : Math.sqrt(2) * wave(t) * Math.sin(2 * Math.PI * 50 * t - lag));
    }
    StartRecord before = start(whole);
    StartRecord after = start(lost);
    // One-cycle values are missing around the beginning; the samples beside it are not. Two
    // samples.
    assertThat(after.instants().get("inception_s").value())
        .isCloseTo(before.instants().get("inception_s").value(), within(0.0005));
    assertThat(after.stop().instants().get("release_s").value())
        .isCloseTo(before.stop().instants().get("release_s").value(), within(0.0005));
    assertThat(after.outcome()).isEqualTo(Outcome.COMPLETED);
  }

  private static double wave(double t) {
    return t < 1 || t > 7 ? 0 : t < 3 ? 300 : 80;
  }
}
