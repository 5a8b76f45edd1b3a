package rampwright.analysis.fit;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.LoadKind;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.RunFigure;
import rampwright.analysis.machine.RunFigures;
import rampwright.analysis.machine.RunFigures.PhaseFactors;
import rampwright.analysis.machine.RunPlan;
import rampwright.analysis.machine.RunSimulator;
import rampwright.analysis.machine.StarterLaw;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.Supply;
import rampwright.analysis.machine.Wiring;

/**
 * The same circuit measured at different places, fitted each as it was measured: the truth must
 * come out of both.
 */
class MeasuringPlaceTest {
  private static final StarterSettings FIRST =
      SimulatedTrial.settings(ControlMode.TORQUE_RAMP, 3.4, 9, 20);
  private static final StarterSettings SECOND =
      SimulatedTrial.settings(ControlMode.VOLTAGE_RAMP, 3.8, 5, 40);
  private static final StarterSettings OTHER =
      SimulatedTrial.settings(ControlMode.TORQUE_RAMP, 3.0, 4, 35);

  /** 80 m of a core of 95 mm2: 0.193 ohm/km (IEC 60228, from memory) and 0.08 ohm/km. */
  private static final Supply CABLE = new Supply(0.08 * 0.193, 0.08 * 0.08);

  // What two trials of 25 Hz readings with half a volt and half an ampere of noise leave open; as
  // in AssetFitTest.
  private static final Percentage TIMES = Percentage.withPercentage(4);
  private static final Percentage CURRENTS = Percentage.withPercentage(1.5);
  private static final Percentage DIPS = Percentage.withPercentage(5);

  private static MachineModel truth(Wiring wiring, Supply source, Supply cable, boolean atBusbar) {
    MachineModel real = SimulatedTrial.truth();
    return new MachineModel(
        real.plate(),
        real.motor(),
        new StarterLaw(
            1.03, -0.01, 0.006, 0, 0, 1.012, wiring.insideDelta() ? 0.4 : 0.12, 0.12, wiring),
        source.plus(cable),
        404,
        real.load(),
        null,
        SimulatedTrial.INERTIA,
        null,
        atBusbar ? cable : Supply.NONE);
  }

  private static FitResult fit(MachineModel truth, double sheetOhm) {
    AssetData data =
        new AssetData(
            SimulatedTrial.PLATE,
            LoadKind.LINEAR,
            2.9,
            null,
            null,
            400,
            sheetOhm,
            truth.starter().wiring(),
            null,
            truth.cable());
    return AssetFit.fit(
        data, List.of(SimulatedTrial.of(truth, FIRST, 1), SimulatedTrial.of(truth, SECOND, 2)));
  }

  private static RunFigures figures(MachineModel model) {
    return RunFigures.of(
        RunSimulator.run(model, OTHER, RunPlan.startOnly(40)), model, PhaseFactors.BALANCED);
  }

  private static void isFound(FitResult fit, MachineModel truth) {
    assertThat(fit.status()).isEqualTo(FitResult.Status.FITTED);
    assertThat(fit.residual()).isLessThan(1);
    RunFigures found = figures(fit.bestModel(404));
    RunFigures real = figures(truth);
    assertThat(found.of(RunFigure.START_TIME)).isCloseTo(real.of(RunFigure.START_TIME), TIMES);
    assertThat(found.of(RunFigure.I2T_A2S)).isCloseTo(real.of(RunFigure.I2T_A2S), TIMES);
    assertThat(found.of(RunFigure.PEAK_CURRENT_A))
        .isCloseTo(real.of(RunFigure.PEAK_CURRENT_A), CURRENTS);
    assertThat(found.of(RunFigure.RUN_CURRENT)).isCloseTo(real.of(RunFigure.RUN_CURRENT), CURRENTS);
    assertThat(found.of(RunFigure.VOLTAGE_DIP)).isCloseTo(real.of(RunFigure.VOLTAGE_DIP), DIPS);
    assertThat(found.starterDipPct()).isCloseTo(real.starterDipPct(), DIPS);
  }

  /** A winding's ampere are 1/sqrt(3) of the line's and more by what circulates. */
  @Test
  void aStarterInsideTheDeltaMeasuredInTheLineAndInTheWindings() {
    Supply source = Supply.ofImpedance(0.018, 3);
    MachineModel line = truth(Wiring.DELTA_SEEN_IN_LINE, source, Supply.NONE, false);
    MachineModel winding = truth(Wiring.DELTA_SEEN_INSIDE, source, Supply.NONE, false);
    FitResult fromLine = fit(line, 0.016);
    FitResult fromWinding = fit(winding, 0.016);
    isFound(fromLine, line);
    isFound(fromWinding, winding);
    double more =
        figures(winding).of(RunFigure.PEAK_CURRENT_A)
            * Math.sqrt(3)
            / figures(line).of(RunFigure.PEAK_CURRENT_A);
    assertThat(more).as("what circulates").isBetween(1.02, 1.12);
    assertThat(fromWinding.bestModel(404).inertiaKgM2())
        .isCloseTo(fromLine.bestModel(404).inertiaKgM2(), TIMES);
    assertThat(Math.exp(fromWinding.best()[AssetParameters.LOAD_FULL]))
        .isCloseTo(Math.exp(fromLine.best()[AssetParameters.LOAD_FULL]), TIMES);
  }

  /**
   * A source twice as strong as the sheet says, with a cable behind the place of measuring: the
   * starter's dip follows from what was measured at the busbar and the cable.
   */
  @Test
  void voltagesOfTheBusbarGiveTheDipOfTheStarter() {
    Supply source = Supply.ofImpedance(0.009, 3);
    MachineModel busbar = truth(Wiring.IN_LINE, source, CABLE, true);
    MachineModel starter = truth(Wiring.IN_LINE, source, CABLE, false);
    RunFigures atBusbar = figures(busbar);
    RunFigures atStarter = figures(starter);
    // the same circuit: only where it is measured differs
    assertThat(atBusbar.starterDipPct())
        .isCloseTo(atStarter.of(RunFigure.VOLTAGE_DIP), Percentage.withPercentage(1e-9));
    assertThat(atBusbar.of(RunFigure.START_TIME))
        .isCloseTo(atStarter.of(RunFigure.START_TIME), Percentage.withPercentage(1e-9));
    assertThat(atBusbar.of(RunFigure.VOLTAGE_DIP)).isLessThan(0.8 * atBusbar.starterDipPct());
    isFound(fit(busbar, 0.018), busbar);
    isFound(fit(starter, 0.028), starter);
  }
}
