package rampwright.app.advice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
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
import rampwright.analysis.machine.RunFigures.PhaseFactors;
import rampwright.analysis.machine.SlipTable;
import rampwright.analysis.machine.StarterLaw;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.StopMode;
import rampwright.analysis.machine.Supply;
import rampwright.analysis.machine.TypicalMotor;
import rampwright.analysis.machine.Wiring;

class ExperienceTest {
  private static final Nameplate PLATE =
      new Nameplate(75e3, 400, 138, 50, 1480, 0.85, 0.94, 6.5, 2.0, 2.7, 1.1);
  private static final MachineModel MODEL =
      new MachineModel(
          PLATE,
          new SlipTable(
              PlateCircuit.of(PLATE, TypicalMotor.of(PLATE)), PLATE.torquePerAirGapPower()),
          new StarterLaw(1, 0, 0, 0, 0, 1, 0.1, 0.1, Wiring.IN_LINE),
          Supply.ofImpedance(0.018, 3),
          400,
          new LoadCurve(0.6, 0.28, 0.42, 1.1, 0.03),
          null,
          4.0);
  private static final StarterSettings MADE =
      new StarterSettings(4.0, ControlMode.TORQUE_RAMP, 8, 20, 40, 0, 0, StopMode.SOFT, 10, 10);
  private static final StarterSettings OTHER =
      new StarterSettings(4.0, ControlMode.VOLTAGE_RAMP, 8, 20, 40, 0, 0, StopMode.SOFT, 10, 10);
  // Arithmetic of doubles only.
  private static final double ROUNDING = 1e-9;

  private static Chances chances() {
    return new Chances(
        new AdviceRequest(
            new AssetData(PLATE, LoadKind.LINEAR, 2.9, null, null, 400, 0.016, Wiring.IN_LINE),
            new SettingRanges(Map.of()),
            List.of(),
            List.of(),
            null),
        PhaseFactors.BALANCED,
        4.5,
        new Shown(Set.of(ControlMode.TORQUE_RAMP, ControlMode.VOLTAGE_RAMP), true),
        60,
        Double.POSITIVE_INFINITY);
  }

  private static Rehearsal rehearsal(Experience experience, StarterSettings settings) {
    Chances chances = chances();
    chances.learn(Lessons.ofAll(experience));
    return chances.rehearsal(chances.whole(MODEL, settings), MODEL, settings);
  }

  /** A trial with these settings whose figures are those of the model times a factor. */
  private static AdviceRequest.Trial trial(StarterSettings settings, double stopTimes) {
    Rehearsal run = rehearsal(Experience.NONE, settings);
    Map<String, Double> figures = new HashMap<>();
    for (RunFigure figure : RunFigure.values()) {
      double value = run.figures().of(figure);
      if (Double.isFinite(value)) {
        figures.put(figure.key(), value * (figure == RunFigure.STOP_TIME ? stopTimes : 1));
      }
    }
    int size = 500;
    double[] timeS = new double[size];
    double[][] amps = new double[1][size];
    double[] speed = new double[size];
    for (int k = 0; k < size; k++) {
      timeS[k] = 0.05 * k;
      boolean on = timeS[k] > 2 && timeS[k] < 20;
      amps[0][k] = on ? 100 : 0;
      speed[k] = on ? Math.min(1480, 400 * (timeS[k] - 2)) : 0;
    }
    return new AdviceRequest.Trial(
        new ObservationBuilder(settings, 138)
            .readings(timeS, amps, new double[0][], speed)
            .end(TrialObservation.End.COMPLETED)
            .build(),
        figures);
  }

  private static Experience learnt(AdviceRequest.Trial... trials) {
    List<AdviceRequest.Trial> made = List.of(trials);
    return Experience.of(
        made,
        made.stream()
            .map(one -> rehearsal(Experience.NONE, one.observation().settings()))
            .toList());
  }

  @Test
  void aTrialMadeAgainIsPredictedAsItWas() {
    AdviceRequest.Trial seen = trial(MADE, 1.2);
    Rehearsal again = rehearsal(learnt(seen), MADE);
    double measured = Objects.requireNonNull(seen.figures().get("stop_time_s"));
    assertThat(again.of(RunFigure.STOP_TIME))
        .isBetween(0.95 * measured, measured)
        .isGreaterThan(1.1 * again.figures().of(RunFigure.STOP_TIME));
    assertThat(again.of(RunFigure.START_TIME))
        .isCloseTo(again.figures().of(RunFigure.START_TIME), within(ROUNDING));
  }

  /**
   * Closed form for one trial with a miss of r at the same settings, prior standard deviation s
   * times a factor f, a trial's own 0.3 s, f2 = (3 + r2 / 1.09 s2) / 4: shift r f2 / (f2 + 0.09),
   * variance s2 f2 (1 - f2 / (f2 + 0.09)) + 0.09 s2.
   */
  @Test
  void oneTrialFollowsTheClosedForm() {
    Rehearsal plain = rehearsal(Experience.NONE, MADE);
    Rehearsal again = rehearsal(learnt(trial(MADE, 1.2)), MADE);
    double s = plain.sigma(RunFigure.STOP_TIME) / plain.of(RunFigure.STOP_TIME);
    double r = Math.log(1.2);
    double f2 = (3 + r * r / (1.09 * s * s)) / 4;
    assertThat(Math.log(again.of(RunFigure.STOP_TIME) / plain.of(RunFigure.STOP_TIME)))
        .isCloseTo(r * f2 / (f2 + 0.09), within(ROUNDING));
    double share = again.sigma(RunFigure.STOP_TIME) / again.of(RunFigure.STOP_TIME);
    assertThat(share).isCloseTo(s * Math.sqrt(0.09 * f2 / (f2 + 0.09) + 0.09), within(ROUNDING));
  }

  @Test
  void farAwayAMissWidensButDoesNotShift() {
    Experience experience = learnt(trial(MADE, 1.2));
    StarterSettings far = Setting.RAMP_DOWN.in(MADE, 60);
    Rehearsal plain = rehearsal(Experience.NONE, far);
    Rehearsal other = rehearsal(experience, far);
    assertThat(other.of(RunFigure.STOP_TIME) / plain.of(RunFigure.STOP_TIME)).isBetween(1.0, 1.01);
    assertThat(other.sigma(RunFigure.STOP_TIME))
        .isGreaterThan(1.5 * plain.sigma(RunFigure.STOP_TIME));
  }

  /**
   * Closed forms: n trials without a miss at the same settings leave 0.09 / (n + 0.09) of the
   * variance, and a trial's own 0.09 comes on top. The two starts are of different kinds of ramp
   * and tell nothing of each other, the two stops are the same.
   */
  @Test
  void aModelThatWasRightIsNotShiftedAndTrustedMoreWhereItWasSeen() {
    Experience experience = learnt(trial(MADE, 1), trial(OTHER, 1));
    for (StarterSettings settings : List.of(MADE, OTHER)) {
      Rehearsal plain = rehearsal(Experience.NONE, settings);
      Rehearsal after = rehearsal(experience, settings);
      for (RunFigure figure : List.of(RunFigure.START_TIME, RunFigure.STOP_TIME)) {
        int n = figure == RunFigure.STOP_TIME ? 2 : 1;
        assertThat(after.of(figure)).isCloseTo(plain.of(figure), within(ROUNDING));
        assertThat(after.sigma(figure))
            .isCloseTo(plain.sigma(figure) * Math.sqrt(0.09 / (n + 0.09) + 0.09), within(ROUNDING));
      }
    }
  }
}
