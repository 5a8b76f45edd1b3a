package rampwright.app.advice;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import rampwright.analysis.fit.AssetData;
import rampwright.analysis.fit.ObservationBuilder;
import rampwright.analysis.fit.TrialObservation;
import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.LoadCurve;
import rampwright.analysis.machine.LoadKind;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.Nameplate;
import rampwright.analysis.machine.PlateCircuit;
import rampwright.analysis.machine.RunFigure;
import rampwright.analysis.machine.RunFigures;
import rampwright.analysis.machine.RunFigures.PhaseFactors;
import rampwright.analysis.machine.RunPlan;
import rampwright.analysis.machine.RunSimulator;
import rampwright.analysis.machine.SlipTable;
import rampwright.analysis.machine.StarterLaw;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.StopMode;
import rampwright.analysis.machine.Supply;
import rampwright.analysis.machine.Trajectory;
import rampwright.analysis.machine.TypicalMotor;
import rampwright.analysis.machine.Wiring;

/** Behaviour of the advice on an invented conveyor whose truth the engine does not see. */
class AdviceEngineTest {
  private static final Nameplate PLATE =
      new Nameplate(75e3, 400, 138, 50, 1480, 0.85, 0.94, 6.5, 2.0, 2.7, 1.1);
  private static final AssetData ASSET =
      new AssetData(PLATE, LoadKind.LINEAR, 2.9, null, null, 400, 0.016, Wiring.IN_LINE);
  private static final SettingRanges RANGES = new SettingRanges(Map.of());
  private static final StarterSettings SLOW =
      new StarterSettings(4.0, ControlMode.TORQUE_RAMP, 20, 10, 30, 0, 0, StopMode.COAST, 10, 10);
  private static final List<FigureLimit> ENVELOPE =
      List.of(
          new FigureLimit("start_time_s", 3.5, 7.0),
          new FigureLimit("peak_current_ratio", null, 4.2),
          new FigureLimit("i2t_ratio_s", null, 75.0));

  private static MachineModel truth() {
    return new MachineModel(
        PLATE,
        new SlipTable(PlateCircuit.of(PLATE, TypicalMotor.of(PLATE)), PLATE.torquePerAirGapPower()),
        new StarterLaw(1.03, -0.01, 0.006, 0, 0, 1.012, 0.12, 0.12, Wiring.IN_LINE),
        Supply.ofImpedance(0.018, 3),
        404,
        new LoadCurve(0.62, 0.28, 0.42, 1.1, 0.03),
        null,
        4.6);
  }

  private static RunFigures run(StarterSettings settings) {
    MachineModel model = truth();
    return RunFigures.of(
        RunSimulator.run(model, settings, RunPlan.startAndStop(40, 4)),
        model,
        PhaseFactors.BALANCED);
  }

  private static AdviceRequest.Trial trial(StarterSettings settings, long seed) {
    MachineModel model = truth();
    Trajectory run = RunSimulator.run(model, settings, RunPlan.startAndStop(40, 4));
    Random noise = new Random(seed);
    int size = 80 + (int) (run.instants().endS() / 0.04);
    double[] time = new double[size];
    double[][] amps = new double[1][size];
    double[][] volts = new double[1][size];
    for (int k = 0; k < size; k++) {
      time[k] = 0.04 * k;
      double at = time[k] - 2;
      boolean inside = at >= 0 && at <= run.instants().endS();
      int index = run.indexAt(at);
      amps[0][k] =
          Math.abs((inside ? run.currentRatio(index) * 138 : 0) + 0.4 * noise.nextGaussian());
      volts[0][k] = (inside ? run.busVoltagePu(index) * 400 : 404) + 0.4 * noise.nextGaussian();
    }
    TrialObservation seen =
        new ObservationBuilder(settings, 138).readings(time, amps, volts, null).build();
    RunFigures figures = run(settings);
    java.util.Map<String, Double> measured = new java.util.HashMap<>();
    for (FigureLimit limit : ENVELOPE) {
      var figure = java.util.Objects.requireNonNull(limit.figure());
      measured.put(limit.key(), figures.of(figure));
    }
    return new AdviceRequest.Trial(seen, measured);
  }

  private static boolean meets(StarterSettings settings) {
    RunFigures figures = run(settings);
    for (FigureLimit limit : ENVELOPE) {
      if (!limit.met(figures.of(java.util.Objects.requireNonNull(limit.figure())))) {
        return false;
      }
    }
    return true;
  }

  @Test
  void oneTrialIsEnoughToMeetTheEnvelope() {
    assertThat(meets(SLOW)).isFalse();
    Advice advice =
        AdviceEngine.advise(
            new AdviceRequest(ASSET, RANGES, ENVELOPE, List.of(trial(SLOW, 1)), null));
    assertThat(advice.status()).isEqualTo(Advice.Status.CHANGE);
    assertThat(meets(advice.settings())).isTrue();
    assertThat(advice.chanceAllMet()).isGreaterThan(0.7);
    assertThat(advice.model().basis()).isEqualTo("fitted");
    assertThat(advice.changes()).isNotEmpty();
    assertThat(advice.predicted())
        .containsKeys("start_time_s", "peak_current_ratio", "i2t_ratio_s");
  }

  @Test
  void settingsCanBeEnteredAsTheyAre() {
    Map<Setting, SettingRange> coarse =
        Map.of(
            Setting.CURRENT_LIMIT, new SettingRange(2.0, 5.0, 0.5),
            Setting.RAMP_UP, new SettingRange(1, 30, 1),
            Setting.INITIAL_TORQUE, new SettingRange(10, 60, 5),
            Setting.INITIAL_VOLTAGE, new SettingRange(30, 70, 5));
    Advice advice =
        AdviceEngine.advise(
            new AdviceRequest(
                ASSET, new SettingRanges(coarse), ENVELOPE, List.of(trial(SLOW, 2)), null));
    coarse.forEach(
        (setting, range) -> {
          double value = setting.of(advice.settings());
          assertThat(value).isBetween(range.min(), range.max());
          assertThat(range.nearest(value)).isEqualTo(value);
        });
  }

  @Test
  void theSameSettingsAreKeptWhenTheLastTrialMetEverything() {
    StarterSettings good =
        new StarterSettings(3.9, ControlMode.TORQUE_RAMP, 5, 40, 30, 0, 0, StopMode.COAST, 10, 10);
    assertThat(meets(good)).isTrue();
    Advice advice =
        AdviceEngine.advise(
            new AdviceRequest(
                ASSET, RANGES, ENVELOPE, List.of(trial(SLOW, 3), trial(good, 4)), null));
    assertThat(advice.status()).isEqualTo(Advice.Status.KEEP);
    assertThat(advice.settings()).isEqualTo(good);
    assertThat(advice.changes()).isEmpty();
  }

  /** A stop that nothing can meet is no reason to leave the start as badly set as it was. */
  @Test
  void theStartIsSetRightEvenWhereTheStopCannotBe() {
    List<FigureLimit> limits = new java.util.ArrayList<>(ENVELOPE);
    limits.add(new FigureLimit("stop_deceleration_pct_per_s", null, 0.01));
    Advice advice =
        AdviceEngine.advise(
            new AdviceRequest(ASSET, RANGES, limits, List.of(trial(SLOW, 1)), null));
    assertThat(advice.chanceAllMet()).isLessThan(0.01);
    assertThat(meets(advice.settings())).isTrue();
  }

  /** A stop time without a tachometer, say: the model's chance stands for what was not measured. */
  @Test
  void aFigureThatCouldNotBeHadIsNoReasonToChange() {
    StarterSettings good =
        new StarterSettings(3.9, ControlMode.TORQUE_RAMP, 5, 40, 30, 0, 0, StopMode.COAST, 10, 10);
    AdviceRequest.Trial whole = trial(good, 4);
    java.util.Map<String, Double> fewer = new java.util.HashMap<>(whole.figures());
    fewer.remove("i2t_ratio_s");
    Advice advice =
        AdviceEngine.advise(
            new AdviceRequest(
                ASSET,
                RANGES,
                ENVELOPE,
                List.of(trial(SLOW, 3), new AdviceRequest.Trial(whole.observation(), fewer)),
                null));
    assertThat(advice.status()).isEqualTo(Advice.Status.KEEP);
    assertThat(advice.reason()).contains("that could be measured");
    // A stop that cannot be had by the model is not kept for want of a measurement.
    List<FigureLimit> more = new java.util.ArrayList<>(ENVELOPE);
    more.add(new FigureLimit("stop_deceleration_pct_per_s", null, 0.01));
    Advice unmet =
        AdviceEngine.advise(
            new AdviceRequest(ASSET, RANGES, more, List.of(trial(SLOW, 3), whole), null));
    assertThat(unmet.status()).isNotEqualTo(Advice.Status.KEEP);
  }

  /** No channel shows when the shaft stands: the same stop again would tell the same again. */
  @Test
  void aStopNobodySawIsNotRepeatedOnACoinsToss() {
    List<FigureLimit> limits = new java.util.ArrayList<>(ENVELOPE);
    double usual = run(SLOW).of(RunFigure.STOP_TIME);
    limits.add(new FigureLimit("stop_time_s", 2.4 * usual, 2.55 * usual));
    AdviceRequest.Trial first = trial(SLOW, 3);
    Advice once =
        AdviceEngine.advise(new AdviceRequest(ASSET, RANGES, limits, List.of(first), null));
    Advice twice =
        AdviceEngine.advise(
            new AdviceRequest(
                ASSET, RANGES, limits, List.of(first, trial(once.settings(), 4)), null));
    assertThat(twice.status()).isEqualTo(Advice.Status.NEED_ANOTHER_TRIAL);
    assertThat(twice.reason()).contains("no channel shows", "speed channel");
    assertThat(SettingDistance.stops(once.settings(), twice.settings())).isLessThan(0.9);
  }

  @Test
  void whatCannotBeMetIsSaidWithTheLimitThatStandsInTheWay() {
    List<FigureLimit> hard =
        List.of(
            new FigureLimit("start_time_s", null, 3.0),
            new FigureLimit("peak_current_ratio", null, 2.6));
    // One trial, far off because of its settings, is no evidence yet.
    Advice first =
        AdviceEngine.advise(new AdviceRequest(ASSET, RANGES, hard, List.of(trial(SLOW, 5)), null));
    assertThat(first.status()).isEqualTo(Advice.Status.NEED_ANOTHER_TRIAL);
    Advice advice =
        AdviceEngine.advise(
            new AdviceRequest(
                ASSET, RANGES, hard, List.of(trial(SLOW, 5), trial(first.settings(), 6)), null));
    assertThat(advice.status()).isEqualTo(Advice.Status.CANNOT_MEET);
    assertThat(advice.binding()).isNotEmpty();
    assertThat(advice.binding())
        .anySatisfy(
            each -> {
              assertThat(each.limit()).contains("start_time_s");
              assertThat(each.needed()).isEqualTo(3.0);
              assertThat(each.reachable()).isGreaterThan(3.0);
              assertThat(each.evidence())
                  .contains("start time", "asked is at most 3 s", "current limit");
            });
  }

  /** A conveyor that takes 0.42 of rated torque to break away is held at less current. */
  @Test
  void aCurrentTooSmallForTheLoadIsToldInTorque() {
    List<FigureLimit> hard =
        List.of(
            new FigureLimit("start_time_s", null, 8.0),
            new FigureLimit("peak_current_ratio", null, 1.6));
    Advice advice =
        AdviceEngine.advise(
            new AdviceRequest(
                ASSET, RANGES, hard, List.of(trial(SLOW, 15), trial(SLOW, 16)), null));
    assertThat(advice.status()).isEqualTo(Advice.Status.CANNOT_MEET);
    assertThat(advice.binding())
        .anySatisfy(
            each ->
                assertThat(each.evidence())
                    .contains("of rated torque at standstill where breaking away takes 0.")
                    .contains("The smallest current limit that starts it is"));
  }

  @Test
  void withoutATrialTheNameplateIsTheBasis() {
    Advice advice =
        AdviceEngine.advise(new AdviceRequest(ASSET, RANGES, ENVELOPE, List.of(), null));
    assertThat(advice.status()).isEqualTo(Advice.Status.CHANGE);
    assertThat(advice.model().basis()).isEqualTo("nameplate");
    assertThat(advice.settings().hasPulse()).isFalse();
    assertThat(advice.settings().currentLimitRatio()).isLessThanOrEqualTo(4.2);
  }

  @Test
  void aFigureTheModelDoesNotGiveIsNamedNotGuessed() {
    List<FigureLimit> limits =
        List.of(new FigureLimit("thd_pct", null, 10.0), new FigureLimit("start_time_s", 4.0, 8.0));
    Advice advice =
        AdviceEngine.advise(
            new AdviceRequest(ASSET, RANGES, limits, List.of(trial(SLOW, 6)), null));
    assertThat(advice.notAssessable()).singleElement().asString().contains("thd_pct");
    assertThat(advice.predicted()).doesNotContainKey("thd_pct");
  }

  @Test
  void predictedRangesHoldWhatTheGivenSettingsDo() {
    StarterSettings other =
        new StarterSettings(3.8, ControlMode.TORQUE_RAMP, 7, 30, 30, 0, 0, StopMode.COAST, 10, 10);
    Advice advice =
        AdviceEngine.predict(
            new AdviceRequest(ASSET, RANGES, ENVELOPE, List.of(trial(SLOW, 7)), null), other);
    RunFigures truth = run(other);
    for (FigureLimit limit : ENVELOPE) {
      Advice.Range range = java.util.Objects.requireNonNull(advice.predicted().get(limit.key()));
      double value = truth.of(java.util.Objects.requireNonNull(limit.figure()));
      // The 5 to 95 % range holds nine in ten; twice its half-width holds all but one in a
      // thousand.
      assertThat(value)
          .isBetween(
              range.median() - 2 * (range.median() - range.low()),
              range.median() + 2 * (range.high() - range.median()));
    }
  }

  @Test
  void theDrawnCourseIsAsUncertainAsTheFiguresBesideIt() {
    Advice advice =
        AdviceEngine.predict(
            new AdviceRequest(ASSET, RANGES, ENVELOPE, List.of(trial(SLOW, 7)), null), SLOW);
    Course speed = java.util.Objects.requireNonNull(advice.speedRpm());
    double settled = java.util.Arrays.stream(speed.median()).max().orElseThrow();
    Advice.Range start = java.util.Objects.requireNonNull(advice.predicted().get("start_time_s"));
    Advice.Range stop = java.util.Objects.requireNonNull(advice.predicted().get("stop_time_s"));
    // Forty draws against sixty-four and another die: a third of the width either way.
    double drawn = first(speed, speed.low(), settled) - first(speed, speed.high(), settled);
    assertThat(drawn / (start.high() - start.low())).isBetween(0.67, 1.5);
    // Nobody saw this stop: its doubt is far larger than the models' spread, and it is drawn.
    double ends = last(speed, speed.high(), settled) - last(speed, speed.low(), settled);
    assertThat(stop.high() - stop.low()).isGreaterThan(0.3 * stop.median());
    assertThat(ends / (stop.high() - stop.low())).isBetween(0.67, 1.8);
  }

  private static double first(Course course, double[] rpm, double settledRpm) {
    int k = 0;
    while (rpm[k] < 0.95 * settledRpm) {
      k++;
    }
    return course.timeS()[k];
  }

  private static double last(Course course, double[] rpm, double settledRpm) {
    int k = rpm.length - 1;
    while (rpm[k] < 0.1 * settledRpm) {
      k--;
    }
    return course.timeS()[k];
  }

  @Test
  void adviceIsTheSameTwice() {
    AdviceRequest request =
        new AdviceRequest(ASSET, RANGES, ENVELOPE, List.of(trial(SLOW, 8)), null);
    Advice once = AdviceEngine.advise(request);
    Advice again = AdviceEngine.advise(request);
    assertThat(again.settings()).isEqualTo(once.settings());
    assertThat(again.chanceAllMet()).isEqualTo(once.chanceAllMet());
  }
}
