package rampwright.analysis.figure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Trace;
import rampwright.analysis.trace.TraceKind;

/** Values no motor circuit can have produced change no figure and are said. */
class SoundTraceTest {
  private static final DoubleUnaryOperator COURSE = t -> t < 1 || t > 9 ? 0 : t < 5 ? 350 : 80;
  private static final DoubleUnaryOperator SPEED =
      t -> t < 1 ? 0 : t < 9 ? Math.min(1480, 370 * (t - 1)) : Math.max(0, 1480 - 600 * (t - 9));
  private static final List<String> FIGURES =
      List.of("start_time_s", "peak_current_A", "i2t_A2s", "rms_current_A", "run_current_A");

  private static MadeTrace readings() {
    return new MadeTrace(12, 20).withThreeReadings(COURSE).with(ChannelName.SPEED, SPEED);
  }

  private static DoubleUnaryOperator at(double atS, double value, DoubleUnaryOperator otherwise) {
    return t -> Math.abs(t - atS) < 0.01 ? value : otherwise.applyAsDouble(t);
  }

  private static List<String> codes(AnalyzedTrace analyzed) {
    return analyzed.figures().findings().stream().map(Finding::code).toList();
  }

  private static void sameFigures(MadeTrace bad, String code) {
    AnalyzedTrace clean = MadeTrace.analyze(readings().build());
    AnalyzedTrace analyzed = MadeTrace.analyze(bad.build());
    assertThat(analyzed.figures().starts()).hasSize(1);
    for (String key : FIGURES) {
      Measured expected = clean.figures().starts().get(0).figures().get(key);
      Measured figure = analyzed.figures().starts().get(0).figures().get(key);
      // A missing reading may move a figure by a part of its own uncertainty, not more.
      assertThat(figure.value())
          .as(key + " " + figure.why())
          .isCloseTo(expected.value(), within(0.5 * expected.uncertainty()));
    }
    StopRecord stop = analyzed.figures().starts().get(0).stop();
    Measured slope = stop.figures().get("stop_deceleration_pct_per_s");
    assertThat(slope.value()).isCloseTo(100 * 600 / 1480.0, within(1.0));
    assertThat(codes(analyzed)).contains(code);
    assertThat(codes(clean)).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(doubles = {65535, 32767, 9999, -32768, Double.POSITIVE_INFINITY, 3.4e38, -150})
  void oneImpossibleCurrentIsTakenAsMissing(double value) {
    sameFigures(readings().with(ChannelName.I2, at(3, value, COURSE)), "bad-values");
  }

  @Test
  void aCodeThatStandsForSecondsIsTakenAsMissing() {
    MadeTrace bad =
        readings().with(ChannelName.I1, t -> t > 2 && t < 3 ? 65535 : COURSE.applyAsDouble(t));
    AnalyzedTrace analyzed = MadeTrace.analyze(bad.build());
    assertThat(codes(analyzed)).contains("bad-values", "gap");
    assertThat(analyzed.figures().starts().get(0).figures().get("peak_current_A").value())
        .isCloseTo(350, within(1e-9));
  }

  @ParameterizedTest
  @ValueSource(doubles = {65535, 1900, 1480, 0, -400})
  void oneSpeedThatStandsAloneMovesNothing(double rpm) {
    sameFigures(readings().with(ChannelName.SPEED, at(2.5, rpm, SPEED)), "bad-values");
  }

  /** A tachometer of 4 % of noise, at rest quiet: its jumps are its manner. */
  @Test
  void aTachometerThatJumpsAboutIsNotBroken() {
    java.util.Random noise = new java.util.Random(5);
    MadeTrace made =
        new MadeTrace(12, 25)
            .withThreeReadings(t -> t < 5 || t > 11 ? 0 : t < 7 ? 350 : 80)
            .with(
                ChannelName.SPEED,
                t -> {
                  double rpm = t < 5 || t > 11 ? 0 : Math.min(1480, 740 * (t - 5));
                  return rpm * (1 + 0.04 * noise.nextGaussian());
                });
    assertThat(MadeTrace.analyze(made.build()).figures().findings())
        .noneMatch(f -> f.code().equals("bad-values"));
  }

  /** A start cut after a tenth of a second: one reading of speed, with current. */
  @Test
  void aShaftThatOnlyJustTurnedIsNoBadValue() {
    MadeTrace made =
        new MadeTrace(6, 10)
            .withThreeReadings(t -> t < 2.95 || t > 3.55 ? 0 : 350)
            .with(ChannelName.SPEED, t -> Math.abs(t - 3.5) < 0.01 ? 60 : 0);
    assertThat(MadeTrace.analyze(made.build()).figures().findings())
        .noneMatch(f -> f.code().equals("bad-values"));
  }

  /** A start cut while the shaft gained speed: the apex of its speed is no jump. */
  @Test
  void theApexOfAnAbortedStartIsNoBadValue() {
    MadeTrace made =
        new MadeTrace(8, 25)
            .withThreeReadings(t -> t < 2.02 || t > 2.62 ? 0 : 350)
            .with(
                ChannelName.SPEED,
                t ->
                    t < 2.1
                        ? 0
                        : t < 2.62 ? 640 * (t - 2.1) : Math.max(0, 332.8 - 500 * (t - 2.62)));
    assertThat(MadeTrace.analyze(made.build()).figures().findings())
        .noneMatch(f -> f.code().equals("bad-values"));
  }

  /**
   * A pickup's lone pulses among thousands of samples leave no finding and no trace in a figure.
   */
  @Test
  void loneSamplesOfADenseTachometerMoveNothing() {
    MadeTrace made =
        new MadeTrace(9, 4000).withThreePhase(t -> t < 1 || t > 8 ? 0 : t < 4 ? 350 : 80, 50);
    java.util.function.DoubleUnaryOperator rpm =
        t -> t < 1 ? 0 : t < 8 ? Math.min(1480, 500 * (t - 1)) : Math.max(0, 1480 - 2000 * (t - 8));
    StartRecord clean =
        MadeTrace.analyze(made.with(ChannelName.SPEED, rpm).build()).figures().starts().get(0);
    TraceFigures f =
        MadeTrace.analyze(
                made.with(
                        ChannelName.SPEED,
                        t -> rpm.applyAsDouble(t) + (Math.abs(t % 0.5 - 0.2) < 1e-5 ? 400 : 0))
                    .build())
            .figures();
    assertThat(f.findings()).isEmpty();
    assertThat(f.starts().get(0).instants().get("full_speed_s").value())
        .isCloseTo(clean.instants().get("full_speed_s").value(), within(1e-6));
  }

  @Test
  void aLongInrushBeyondTheRatedCurrentIsKept() {
    // The asset sheet says 100 A, the motor takes forty times that: the sheet is wrong, not the
    // meter.
    Trace trace =
        new MadeTrace(12, 20).withThreeReadings(t -> 12 * COURSE.applyAsDouble(t)).build();
    AnalyzedTrace analyzed = MadeTrace.analyze(trace);
    assertThat(codes(analyzed)).doesNotContain("bad-values");
    assertThat(analyzed.figures().starts().get(0).figures().get("peak_current_A").value())
        .isCloseTo(4200, within(1e-6));
  }

  @Test
  void speedOfNegativeSignIsTakenAsMagnitudeAndSaid() {
    sameFigures(
        readings().with(ChannelName.SPEED, t -> -SPEED.applyAsDouble(t)), "reversed-channel");
  }

  @Test
  void readingsOfNegativeSignAreTakenAsMagnitudeAndSaid() {
    sameFigures(readings().with(ChannelName.I3, t -> -COURSE.applyAsDouble(t)), "reversed-channel");
  }

  private static DoubleUnaryOperator wave(int phase) {
    return t ->
        Math.sqrt(2)
            * COURSE.applyAsDouble(t)
            * Math.sin(2 * Math.PI * 50 * t - phase * 2 * Math.PI / 3);
  }

  private static MadeTrace waves() {
    MadeTrace made = new MadeTrace(12, 4000);
    for (int p = 0; p < 3; p++) {
      made.with(ChannelName.CURRENTS.get(p), wave(p));
    }
    return made;
  }

  @ParameterizedTest
  @ValueSource(doubles = {32767, -32768, 900, Double.NEGATIVE_INFINITY})
  void aLoneSampleMovesNothing(double value) {
    Map<String, Measured> clean =
        MadeTrace.analyze(waves().build()).figures().starts().get(0).figures();
    DoubleUnaryOperator good = wave(0);
    AnalyzedTrace bad =
        MadeTrace.analyze(
            waves()
                .with(
                    ChannelName.I1,
                    t -> Math.abs(t - 3.0025) < 1e-5 ? value : good.applyAsDouble(t))
                .build());
    assertThat(bad.figures().kind()).isEqualTo(TraceKind.WAVEFORM);
    assertThat(codes(bad)).contains("bad-values");
    Map<String, Measured> figures = bad.figures().starts().get(0).figures();
    for (String key : List.of("peak_current_A", "crest_current_A", "i2t_A2s")) {
      assertThat(figures.get(key).value())
          .as(key)
          .isCloseTo(clean.get(key).value(), within(0.001 * clean.get(key).value()));
    }
  }

  @Test
  void anOffsetOfAWaveformIsTakenOffAndSaid() {
    Map<String, Measured> clean =
        MadeTrace.analyze(waves().build()).figures().starts().get(0).figures();
    MadeTrace made = new MadeTrace(12, 4000);
    for (int p = 0; p < 3; p++) {
      DoubleUnaryOperator good = wave(p);
      made.with(ChannelName.CURRENTS.get(p), t -> 40 + good.applyAsDouble(t));
    }
    AnalyzedTrace bad = MadeTrace.analyze(made.build());
    assertThat(codes(bad)).contains("offset");
    StartRecord start = bad.figures().starts().get(0);
    assertThat(start.outcome()).isEqualTo(Outcome.COMPLETED);
    assertThat(start.instants().get("inception_s").value()).isCloseTo(1, within(0.001));
    for (String key : List.of("peak_current_A", "crest_current_A", "i2t_A2s", "run_current_A")) {
      assertThat(start.figures().get(key).value())
          .as(key)
          .isCloseTo(clean.get(key).value(), within(0.001 * clean.get(key).value()));
    }
  }

  @Test
  void anOffsetOfReadingsIsNoFlowAndIsSaid() {
    // 8 A of 100 A at rest: above 5 % of rated current, but nothing flows.
    AnalyzedTrace analyzed =
        MadeTrace.analyze(
            new MadeTrace(12, 20)
                .withThreeReadings(t -> 8 + COURSE.applyAsDouble(t))
                .with(ChannelName.SPEED, SPEED)
                .build());
    StartRecord start = analyzed.figures().starts().get(0);
    assertThat(start.outcome()).isEqualTo(Outcome.COMPLETED);
    assertThat(start.instants().get("inception_s").value()).isCloseTo(1, within(0.05));
    assertThat(start.stop()).isNotNull();
    assertThat(codes(analyzed)).contains("offset");
    for (Map.Entry<String, Double> truth :
        Map.of("peak_current_A", 350.0, "run_current_A", 80.0).entrySet()) {
      Measured figure = start.figures().get(truth.getKey());
      assertThat(figure.rule()).contains("at rest");
      assertThat(Math.abs(figure.value() - truth.getValue())).isLessThan(2 * figure.uncertainty());
    }
  }

  /** Without a nameplate a channel of noise alone, coarse or fine, signed or not, has no starts. */
  @ParameterizedTest
  @CsvSource({"10, 0", "50, 0", "10, 1", "50, 1", "10, 2", "50, 2", "1000, 2"})
  void aChannelOfNoiseHasNoStarts(double rateHz, int kind) {
    java.util.Random noise = new java.util.Random(3);
    Trace trace =
        new MadeTrace(20, rateHz)
            .with(
                ChannelName.I1,
                t -> {
                  double g = noise.nextGaussian();
                  return kind == 0
                      ? 0.05 * Math.abs(g)
                      : kind == 1 ? 0.05 * g : 0.1 * Math.rint(0.6 * Math.abs(g));
                })
            .build();
    TraceFigures figures =
        TraceAnalyzer.analyze(trace, MotorContext.UNKNOWN, AnalysisOptions.DEFAULT).figures();
    assertThat(figures.starts().size()).isZero();
  }

  @Test
  void noiseAtRestRaisesTheThreshold() {
    // Spread 2 A at rest, six times that is 12 A: lone readings of 9 A are no flow.
    java.util.Random random = new java.util.Random(5);
    double[] noise = random.doubles(241, -3.5, 3.5).toArray();
    MadeTrace made = new MadeTrace(12, 20);
    for (ChannelName phase : ChannelName.CURRENTS) {
      made.with(
          phase,
          t -> {
            double rest = 4 + noise[(int) Math.round(t * 20)];
            return COURSE.applyAsDouble(t) == 0 ? rest : COURSE.applyAsDouble(t);
          });
    }
    AnalyzedTrace analyzed = MadeTrace.analyze(made.build());
    assertThat(analyzed.figures().starts()).hasSize(1);
    assertThat(analyzed.figures().starts().get(0).instants().get("inception_s").value())
        .isCloseTo(1, within(0.05));
  }

  @Test
  void aRecordOfLessThanTwoCyclesIsTooShort() {
    AnalyzedTrace analyzed =
        MadeTrace.analyze(new MadeTrace(2, 0.03, 10000).withThreePhase(t -> 350, 50).build());
    assertThat(analyzed.figures().kind()).isEqualTo(TraceKind.WAVEFORM);
    assertThat(analyzed.figures().starts()).isEmpty();
    assertThat(codes(analyzed)).containsExactly("too-short");
    assertThat(analyzed.figures().kindReason()).contains("too short");
  }

  @Test
  void aFrequencyOffTheSheetsIsFound() {
    // The sheet says 50 Hz.
    AnalyzedTrace analyzed =
        MadeTrace.analyze(new MadeTrace(12, 4000).withThreePhase(COURSE, 66).build());
    assertThat(analyzed.figures().frequencyHz()).isCloseTo(66, within(0.1));
    assertThat(analyzed.figures().starts()).hasSize(1);
  }
}
