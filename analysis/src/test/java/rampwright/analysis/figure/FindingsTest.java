package rampwright.analysis.figure;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Trace;

class FindingsTest {
  private static final DoubleUnaryOperator COURSE = t -> t < 1 || t > 8 ? 0 : t < 4 ? 350 : 80;

  private static List<String> codes(Trace trace) {
    return MadeTrace.analyze(trace).figures().findings().stream().map(Finding::code).toList();
  }

  private static double sine(double t, int phase) {
    return Math.sqrt(2) * Math.sin(2 * Math.PI * 50 * t - phase * 2 * Math.PI / 3);
  }

  private static MadeTrace wave() {
    MadeTrace made = new MadeTrace(9, 4000).withThreePhase(COURSE, 50);
    for (int l = 0; l < 3; l++) {
      int line = l;
      made.with(
          ChannelName.LINE_VOLTAGES.get(l),
          t -> (COURSE.applyAsDouble(t) > 100 ? 385 : 400) * sine(t + 1.0 / 600, line));
    }
    return made;
  }

  @Test
  void aGoodStartHasNone() {
    assertThat(codes(wave().build())).isEmpty();
  }

  @Test
  void aPhaseThatStopsConductingIsMissing() {
    Trace trace =
        wave()
            .with(ChannelName.I2, t -> t > 2 && t < 2.5 ? 0 : COURSE.applyAsDouble(t) * sine(t, 1))
            .build();
    assertThat(codes(trace)).contains("phase-missing");
  }

  @Test
  void aPhaseMissingForThreeCyclesIsNotYetSaid() {
    Trace trace =
        wave()
            .with(ChannelName.I2, t -> t > 2 && t < 2.06 ? 0 : COURSE.applyAsDouble(t) * sine(t, 1))
            .build();
    assertThat(codes(trace)).doesNotContain("phase-missing");
  }

  @Test
  void aPhaseThatComesAndGoesIsOneFinding() {
    // Gone for 0.2 s of every 0.25 s, for two seconds; and once more four seconds later.
    Trace trace =
        wave()
            .with(
                ChannelName.I2,
                t -> {
                  boolean gone = (t > 1.5 && t < 3.5 && t % 0.25 < 0.2) || (t > 7 && t < 7.3);
                  return gone ? 0 : COURSE.applyAsDouble(t) * sine(t, 1);
                })
            .build();
    List<Finding> missing =
        MadeTrace.analyze(trace).figures().findings().stream()
            .filter(f -> f.code().equals("phase-missing"))
            .toList();
    assertThat(missing).hasSize(2);
    assertThat(missing.get(0).fromS()).isBetween(1.5, 1.55);
    assertThat(missing.get(0).toS()).isBetween(3.4, 3.5);
  }

  @Test
  void halfWavesOfOneSignAreOneWayConduction() {
    Trace trace =
        wave()
            .with(
                ChannelName.I3,
                t -> {
                  double i = COURSE.applyAsDouble(t) * sine(t, 2);
                  return t > 2 && t < 3 ? Math.max(0, i) : i;
                })
            .build();
    List<Finding> found = MadeTrace.analyze(trace).figures().findings();
    Finding oneWay =
        found.stream().filter(f -> f.code().equals("one-way-conduction")).findFirst().orElseThrow();
    // A half-wave rectified sine: mean A / pi, RMS A / 2, so d.c. over RMS is 2 / pi = 63.7 %.
    assertThat(oneWay.value()).isBetween(62.0, 65.0);
    assertThat(oneWay.fromS()).isBetween(1.95, 2.05);
    assertThat(oneWay.text()).contains("L3");
  }

  @Test
  void theTransientOfSwitchingOnIsNoOneWayConduction() {
    Trace trace =
        wave()
            .with(
                ChannelName.I1,
                t -> COURSE.applyAsDouble(t) * (sine(t, 0) + 1.4 * Math.exp(-(t - 1) / 0.05)))
            .build();
    assertThat(codes(trace)).doesNotContain("one-way-conduction");
  }

  @Test
  void aFallOfVoltageWithoutARiseOfCurrentIsTheSupplys() {
    MadeTrace made = new MadeTrace(9, 4000);
    DoubleUnaryOperator dipped = t -> t > 2 && t < 2.4 ? 0.8 : 1;
    made.withThreePhase(t -> COURSE.applyAsDouble(t) * dipped.applyAsDouble(t), 50);
    for (int l = 0; l < 3; l++) {
      int line = l;
      made.with(
          ChannelName.LINE_VOLTAGES.get(l),
          t ->
              dipped.applyAsDouble(t)
                  * (COURSE.applyAsDouble(t) > 100 ? 385 : 400)
                  * sine(t + 1.0 / 600, line));
    }
    AnalyzedTrace analyzed = MadeTrace.analyze(made.build());
    assertThat(analyzed.figures().findings())
        .filteredOn(f -> f.code().equals("supply-dip"))
        .hasSize(1)
        .allSatisfy(f -> assertThat(f.toS() - f.fromS()).isBetween(0.38, 0.48));
    var figures = analyzed.figures().starts().get(0).figures();
    assertThat(figures.get("voltage_dip_pct").value()).isGreaterThan(20);
    // The start's own doing is 385 of 400 V.
    assertThat(figures.get("start_drop_pct").value()).isBetween(3.5, 4.5);
  }

  @Test
  void theStartsOwnDropIsNoSupplyDip() {
    MadeTrace made = new MadeTrace(9, 4000).withThreePhase(COURSE, 50);
    for (int l = 0; l < 3; l++) {
      int line = l;
      made.with(
          ChannelName.LINE_VOLTAGES.get(l),
          t -> (COURSE.applyAsDouble(t) > 100 ? 320 : 400) * sine(t + 1.0 / 600, line));
    }
    assertThat(codes(made.build())).doesNotContain("supply-dip");
  }

  @Test
  void crestsCutAtTheRangesEndAreClipped() {
    Trace trace =
        wave()
            .with(
                ChannelName.I1,
                t -> Math.max(-420, Math.min(420, COURSE.applyAsDouble(t) * sine(t, 0))))
            .build();
    assertThat(codes(trace)).contains("clipped-channel");
  }

  @Test
  void coarseReadingsOfALevelStartAreNotClipped() {
    Trace trace =
        new MadeTrace(12, 20)
            .withThreeReadings(t -> t < 1 || t > 10 ? 0 : t < 5 ? 350 : 80)
            .with(ChannelName.SPEED, t -> t < 1 ? 0 : Math.min(1480, 370 * (t - 1)))
            .build();
    assertThat(codes(trace)).doesNotContain("clipped-channel");
  }

  @Test
  void missingReadingsAreAGap() {
    Trace trace =
        new MadeTrace(12, 20)
            .withThreeReadings(
                t -> t > 2 && t < 2.6 ? Double.NaN : t < 1 || t > 10 ? 0 : t < 5 ? 350 : 80)
            .with(ChannelName.SPEED, t -> t < 1 ? 0 : Math.min(1480, 370 * (t - 1)))
            .build();
    AnalyzedTrace analyzed = MadeTrace.analyze(trace);
    assertThat(analyzed.figures().findings())
        .anySatisfy(f -> assertThat(f.code()).isEqualTo("gap"));
    assertThat(analyzed.figures().starts()).hasSize(1);
    assertThat(analyzed.figures().starts().get(0).figures().get("i2t_A2s").rule()).contains("gap");
  }

  @Test
  void lateMotionIsLateBreakaway() {
    Trace trace =
        new MadeTrace(12, 20)
            .withThreeReadings(t -> t < 1 || t > 10 ? 0 : t < 5 ? 350 : 80)
            .with(ChannelName.SPEED, t -> t < 3 ? 0 : Math.min(1480, 740 * (t - 3)))
            .build();
    Finding late =
        MadeTrace.analyze(trace).figures().findings().stream()
            .filter(f -> f.code().equals("late-breakaway"))
            .findFirst()
            .orElseThrow();
    assertThat(late.value()).isBetween(1.9, 2.1);
  }

  @Test
  void voltagesInReverseOrderAreSwapped() {
    MadeTrace made = new MadeTrace(9, 4000).withThreePhase(COURSE, 50);
    int[] order = {0, 2, 1};
    for (int l = 0; l < 3; l++) {
      int line = order[l];
      made.with(ChannelName.LINE_VOLTAGES.get(l), t -> 400 * sine(t + 1.0 / 600, line));
    }
    assertThat(codes(made.build())).contains("swapped-channels");
  }

  @Test
  void theLimitActsThroughoutOrNever() {
    Trace trace =
        new MadeTrace(14, 50)
            .withThreeReadings(t -> t < 1 || t > 12 ? 0 : t < 8 ? 350 : 80)
            .with(ChannelName.SPEED, t -> t < 1 ? 0 : Math.min(1480, 211 * (t - 1)))
            .build();
    assertThat(withLimit(trace, 350)).contains("limit-throughout").doesNotContain("limit-idle");
    assertThat(withLimit(trace, 500)).contains("limit-idle").doesNotContain("limit-throughout");
  }

  private static List<String> withLimit(Trace trace, double limitA) {
    AnalysisOptions options =
        new AnalysisOptions(
            java.util.Map.of(), "", Thresholds.DEFAULT, new CurrentLimit(limitA, 5));
    return TraceAnalyzer.analyze(trace, MadeTrace.motor(), options).figures().findings().stream()
        .map(Finding::code)
        .toList();
  }
}
