package rampwright.analysis.fit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Objects;
import java.util.Random;
import org.assertj.core.data.Percentage;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.LoadCurve;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.RunFigure;
import rampwright.analysis.machine.RunFigures;
import rampwright.analysis.machine.RunFigures.PhaseFactors;
import rampwright.analysis.machine.RunPlan;
import rampwright.analysis.machine.RunSimulator;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.StopMode;

/**
 * Fits to readings of an asset whose truth is known and which the plate does not quite describe.
 */
class AssetFitTest {
  private static final int PAIRS = 3;
  private static final StarterSettings FIRST =
      SimulatedTrial.settings(ControlMode.TORQUE_RAMP, 3.4, 9, 20);
  private static final StarterSettings OTHER =
      SimulatedTrial.settings(ControlMode.TORQUE_RAMP, 3.0, 4, 35);
  private static final StarterSettings THIRD =
      SimulatedTrial.settings(ControlMode.VOLTAGE_RAMP, 3.8, 5, 40);
  private static final StarterSettings TOO_LITTLE =
      SimulatedTrial.settings(ControlMode.VOLTAGE_RAMP, 2.7, 6, 30);

  private static double figure(MachineModel model, StarterSettings settings, RunFigure figure) {
    return RunFigures.of(
            RunSimulator.run(model, settings, RunPlan.startOnly(40)), model, PhaseFactors.BALANCED)
        .of(figure);
  }

  /** Half the width from 16 to 84 % of the predicted start time over its mean. */
  private static double spread(FitResult fit, StarterSettings settings) {
    double[] times =
        fit.models(96, 404, 0, new Random(1)).stream()
            .mapToDouble(model -> figure(model, settings, RunFigure.START_TIME))
            .filter(s -> !Double.isNaN(s))
            .sorted()
            .toArray();
    return (times[times.length * 84 / 100] - times[times.length * 16 / 100])
        / 2
        / times[times.length / 2];
  }

  /** The same trial with other readings. */
  private static TrialObservation reading(
      TrialObservation trial, double[] currentA, double @Nullable [] speedRpm) {
    return new TrialObservation(
        trial.settings(),
        trial.timeS(),
        currentA,
        trial.voltageV(),
        speedRpm,
        trial.inceptionS(),
        trial.stopBeginS(),
        0,
        trial.releaseS(),
        trial.end(),
        trial.phases(),
        trial.sourceVoltageV(),
        trial.intervalS());
  }

  @Test
  void oneTrialWithSpeedPredictsOtherSettings() {
    FitResult fit = AssetFit.fit(SimulatedTrial.DATA, List.of(SimulatedTrial.of(FIRST, true, 1)));
    assertThat(fit.status()).isEqualTo(FitResult.Status.FITTED);
    assertThat(fit.residual()).isLessThan(1);
    MachineModel model = fit.bestModel(404);
    MachineModel truth = SimulatedTrial.truth();
    assertThat(model.inertiaKgM2()).isCloseTo(SimulatedTrial.INERTIA, Percentage.withPercentage(6));
    assertThat(figure(model, OTHER, RunFigure.START_TIME))
        .isCloseTo(figure(truth, OTHER, RunFigure.START_TIME), Percentage.withPercentage(6));
    assertThat(figure(model, OTHER, RunFigure.PEAK_CURRENT))
        .isCloseTo(figure(truth, OTHER, RunFigure.PEAK_CURRENT), Percentage.withPercentage(1.5));
    assertThat(figure(model, OTHER, RunFigure.VOLTAGE_DIP))
        .isCloseTo(figure(truth, OTHER, RunFigure.VOLTAGE_DIP), Percentage.withPercentage(4));
  }

  @Test
  void trialsWithoutSpeedStillPredictAndSecondSharpens() {
    MachineModel truth = SimulatedTrial.truth();
    double ratios = 0;
    for (long pair = 1; pair <= PAIRS; pair++) {
      TrialObservation first = SimulatedTrial.of(FIRST, false, 10 * pair + 2);
      TrialObservation second = SimulatedTrial.of(THIRD, false, 10 * pair + 3);
      FitResult one = AssetFit.fit(SimulatedTrial.DATA, List.of(first));
      FitResult two = AssetFit.fit(SimulatedTrial.DATA, List.of(first, second));
      assertThat(figure(two.bestModel(404), FIRST, RunFigure.I2T))
          .isCloseTo(figure(truth, FIRST, RunFigure.I2T), Percentage.withPercentage(4));
      ratios += spread(two, THIRD) / spread(one, THIRD);
    }
    // Measured on five pairs of trials: 0.59 to 0.82 of it, 0.71 in the mean.
    assertThat(ratios / PAIRS).isLessThan(0.85);
  }

  /** A starter that gives up cuts the current, though a soft stop was set. */
  @Test
  void aSoftStopThatWasCutIsTakenAsItActed() {
    TrialObservation coasting = SimulatedTrial.of(FIRST, true, 6);
    TrialObservation cut =
        new TrialObservation(
            soft(FIRST),
            coasting.timeS(),
            coasting.currentA(),
            coasting.voltageV(),
            coasting.speedRpm(),
            coasting.inceptionS(),
            coasting.releaseS(),
            0,
            coasting.releaseS(),
            coasting.end(),
            coasting.phases(),
            coasting.sourceVoltageV(),
            coasting.intervalS());
    FitResult fit = AssetFit.fit(SimulatedTrial.DATA, List.of(cut));
    assertThat(fit.status()).isEqualTo(FitResult.Status.FITTED);
    assertThat(fit.residual()).isLessThan(1);
  }

  private static StarterSettings soft(StarterSettings s) {
    return new StarterSettings(
        s.currentLimitRatio(),
        s.control(),
        s.rampUpS(),
        s.initialTorquePct(),
        s.initialVoltagePct(),
        s.pulseVoltagePct(),
        s.pulseS(),
        StopMode.SOFT,
        10,
        20);
  }

  @Test
  void aStallBoundsTheBreakawayTorque() {
    TrialObservation stalled = SimulatedTrial.of(TOO_LITTLE, false, 4);
    assertThat(stalled.end()).isEqualTo(TrialObservation.End.FAILED);
    FitResult none = AssetFit.fit(SimulatedTrial.DATA, List.of());
    FitResult fit = AssetFit.fit(SimulatedTrial.DATA, List.of(stalled));
    int startedBefore = 0;
    int startedAfter = 0;
    List<MachineModel> before = none.models(40, 404, 0, new Random(1));
    List<MachineModel> after = fit.models(40, 404, 0, new Random(1));
    for (int k = 0; k < 40; k++) {
      startedBefore +=
          Double.isNaN(figure(before.get(k), TOO_LITTLE, RunFigure.START_TIME)) ? 0 : 1;
      startedAfter += Double.isNaN(figure(after.get(k), TOO_LITTLE, RunFigure.START_TIME)) ? 0 : 1;
    }
    assertThat(startedBefore).isGreaterThan(2);
    assertThat(startedAfter).isLessThanOrEqualTo(startedBefore / 2);
  }

  @Test
  void withoutTrialsThePriorIsGivenAndNamed() {
    FitResult fit = AssetFit.fit(SimulatedTrial.DATA, List.of());
    assertThat(fit.status()).isEqualTo(FitResult.Status.NAMEPLATE);
    assertThat(fit.atPrior()).contains("ln inertia_kgm2", "ln load_torque", "ln torque_gain");
    assertThat(fit.bestModel(400).inertiaKgM2()).isCloseTo(4.0, within(1e-9));
  }

  @Test
  void aTraceOfAnotherMotorIsNotExplained() {
    TrialObservation trial = SimulatedTrial.of(FIRST, true, 5);
    double[] thrice = new double[trial.currentA().length];
    for (int k = 0; k < thrice.length; k++) {
      // Current that grows while the speed settles: no motor at a fixed load does that.
      thrice[k] = trial.currentA()[k] * (0.4 + 0.25 * Math.max(0, trial.timeS()[k] - 2));
    }
    TrialObservation odd = reading(trial, thrice, trial.speedRpm());
    assertThat(AssetFit.fit(SimulatedTrial.DATA, List.of(odd)).status())
        .isEqualTo(FitResult.Status.UNEXPLAINED);
  }

  @Test
  void gapsInTheReadingsDoNotUpsetTheFit() {
    TrialObservation trial = SimulatedTrial.of(FIRST, true, 6);
    double[] current = trial.currentA().clone();
    double[] speed = Objects.requireNonNull(trial.speedRpm()).clone();
    Random random = new Random(7);
    for (int k = 0; k < current.length; k++) {
      if (random.nextDouble() < 0.15) {
        current[k] = Double.NaN;
        speed[k] = Double.NaN;
      }
    }
    TrialObservation gappy = reading(trial, current, speed);
    FitResult fit = AssetFit.fit(SimulatedTrial.DATA, List.of(gappy));
    assertThat(fit.status()).isEqualTo(FitResult.Status.FITTED);
    assertThat(fit.bestModel(404).inertiaKgM2())
        .isCloseTo(SimulatedTrial.INERTIA, Percentage.withPercentage(8));
  }

  /** A stall says what the load holds at least, a start what it holds at most. */
  @Test
  void aStallAndAStartBracketTheBreakawayTorque() {
    FitResult fit =
        AssetFit.fit(
            SimulatedTrial.DATA,
            List.of(SimulatedTrial.of(TOO_LITTLE, false, 8), SimulatedTrial.of(FIRST, false, 9)));
    assertThat(fit.status()).isEqualTo(FitResult.Status.FITTED);
    double holds = fit.bestModel(404).load().holding();
    double told = fit.sigma(AssetParameters.BREAKAWAY);
    assertThat(Math.abs(Math.log(holds / SimulatedTrial.LOAD.holding()))).isLessThan(2 * told);
    assertThat(told).isLessThan(0.25);
  }

  /**
   * On a day on which the load sticks by an eighth more, a start with more current stalls than one
   * that came up on another: both are explained, and the usual breakaway lies between.
   */
  @Test
  void breakawayDiffersFromTrialToTrial() {
    MachineModel truth = SimulatedTrial.truth();
    LoadCurve load = truth.load();
    MachineModel stiff =
        truth.withLoad(
            new LoadCurve(
                load.fullTorque(),
                load.minimumTorque(),
                1.125 * load.breakawayTorque(),
                load.exponent(),
                load.breakawayWidth()));
    double limit = 2;
    while (Double.isNaN(figure(truth, limited(limit), RunFigure.START_TIME))) {
      limit += 0.01;
    }
    TrialObservation made = SimulatedTrial.of(truth, limited(1.02 * limit), 31);
    TrialObservation stuck = SimulatedTrial.of(stiff, limited(1.04 * limit), 32);
    assertThat(made.end()).isEqualTo(TrialObservation.End.COMPLETED);
    assertThat(stuck.end()).isEqualTo(TrialObservation.End.FAILED);
    FitResult fit = AssetFit.fit(SimulatedTrial.DATA, List.of(made, stuck));
    assertThat(fit.status()).isEqualTo(FitResult.Status.FITTED);
    assertThat(fit.residual()).isLessThan(1);
    double loose = fit.trialModels(0, 0, 404).get(0).load().holding();
    double tight = fit.trialModels(1, 0, 404).get(0).load().holding();
    double usual = fit.bestModel(404).load().holding();
    // Torque goes with squared current: what stuck held 4 % more than what came up took, at least.
    assertThat(tight / loose).isBetween(Math.pow(1.04 / 1.02, 2), 1.25);
    assertThat(usual).isBetween(0.98 * loose, 1.02 * tight);
  }

  private static StarterSettings limited(double limit) {
    return SimulatedTrial.settings(ControlMode.VOLTAGE_RAMP, limit, 4, 30);
  }

  /** A start cut by hand while it was getting faster tells how long a whole one takes. */
  @Test
  void aStartThatWasCutIsEvidence() {
    TrialObservation cut = SimulatedTrial.cut(FIRST, 6, 10);
    assertThat(cut.end()).isEqualTo(TrialObservation.End.FAILED);
    FitResult none = AssetFit.fit(SimulatedTrial.DATA, List.of());
    FitResult fit = AssetFit.fit(SimulatedTrial.DATA, List.of(cut));
    assertThat(fit.status()).isEqualTo(FitResult.Status.FITTED);
    assertThat(spread(fit, FIRST)).isLessThan(0.6 * spread(none, FIRST));
    assertThat(figure(fit.bestModel(404), FIRST, RunFigure.START_TIME))
        .isCloseTo(
            figure(SimulatedTrial.truth(), FIRST, RunFigure.START_TIME),
            Percentage.withPercentage(10));
  }

  /** Four times the noise, a tenth of the readings lost and half a second of nothing, five ways. */
  @Test
  void noiseAndLostStretchesMoveTheInertiaLittle() {
    for (long seed = 20; seed < 25; seed++) {
      TrialObservation trial = SimulatedTrial.noisy(FIRST, seed, 4);
      double[] current = trial.currentA().clone();
      double[] speed = Objects.requireNonNull(trial.speedRpm()).clone();
      Random random = new Random(seed);
      double from = trial.inceptionS() + 1 + 4 * random.nextDouble();
      for (int k = 0; k < current.length; k++) {
        double at = trial.timeS()[k];
        if (random.nextDouble() < 0.1 || (at > from && at < from + 0.5)) {
          current[k] = Double.NaN;
          speed[k] = Double.NaN;
        }
      }
      TrialObservation broken = reading(trial, current, speed);
      FitResult fit = AssetFit.fit(SimulatedTrial.DATA, List.of(broken));
      assertThat(fit.status()).as("seed %d", seed).isEqualTo(FitResult.Status.FITTED);
      assertThat(fit.bestModel(404).inertiaKgM2())
          .as("seed %d", seed)
          .isCloseTo(SimulatedTrial.INERTIA, Percentage.withPercentage(10));
    }
  }
}
