package rampwright.analysis.machine;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;

/** The quick simulator against the high-order solver, closed forms and its own symmetries. */
class RunSimulatorReferenceTest {
  // Second-order steps that move speed by up to two hundredths: 0.5 % of times is its stated error.
  private static final Percentage METHOD = Percentage.withPercentage(0.5);

  static final Nameplate PLATE =
      new Nameplate(90e3, 400, 160, 50, 1482, 0.87, 0.948, 7.0, 2.1, 2.8, 1.4);

  static MachineModel model(LoadCurve load, double inertia, Supply supply) {
    CageCircuit circuit = PlateCircuit.of(PLATE, TypicalMotor.of(PLATE));
    return new MachineModel(
        PLATE,
        new SlipTable(circuit, PLATE.torquePerAirGapPower()),
        new StarterLaw(1.03, 0.01, 0, 0, 0, 0.99, 0.03, 0.1, Wiring.IN_LINE),
        supply,
        400,
        load,
        null,
        inertia);
  }

  static StarterSettings settings(ControlMode control, double limit, double rampS) {
    return new StarterSettings(limit, control, rampS, 30, 45, 0, 0, StopMode.SOFT, 10, 8);
  }

  @Test
  void startTimeAndRotorHeatAgreeWithTheHighOrderSolver() {
    MachineModel model =
        model(new LoadCurve(0.8, 0.08, 0.1, 2, 0.03), 8, Supply.ofFaultLevel(400, 10e6, 4));
    for (ControlMode control : ControlMode.values()) {
      for (double limit : new double[] {2.8, 3.5, 8}) {
        StarterSettings settings = settings(control, limit, 10);
        Trajectory run = RunSimulator.run(model, settings, RunPlan.startOnly(60));
        RunUpReference.Result reference =
            RunUpReference.run(
                RunUpReference.torqueOf(model, settings),
                (t, n) -> model.loadTorque(n, 0),
                model.accelerationPerS(),
                0.95 * model.settledSpeedPu(),
                60);
        assertThat(run.instants().fullSpeedS()).isCloseTo(reference.timeS(), METHOD);
        assertThat(run.rotorHeatPu()).isCloseTo(reference.rotorHeatPu(), METHOD);
      }
    }
  }

  /**
   * Square-law coasting: w = w0 / (1 + t/tau), tau = J w0 / T0; 90 to 10 % takes (10 - 10/9) tau.
   */
  @Test
  void coastingWithASquareLawLoadFollowsTheClosedForm() {
    MachineModel model = model(new LoadCurve(0.9, 0, 0, 2, 0.03), 6, Supply.ofImpedance(0, 4));
    StarterSettings coast =
        new StarterSettings(6, ControlMode.VOLTAGE_RAMP, 3, 30, 45, 0, 0, StopMode.COAST, 10, 8);
    Trajectory run = RunSimulator.run(model, coast, RunPlan.startAndStop(60, 3));
    RunFigures figures = RunFigures.of(run, model, RunFigures.PhaseFactors.BALANCED);
    double settled = model.settledSpeedPu();
    double tau = settled / (model.accelerationPerS() * model.loadTorque(settled, 0));
    double ninetyToTen = tau * (1 / 0.1 - 1 / 0.9);
    assertThat(figures.of(RunFigure.STOP_90_10)).isCloseTo(ninetyToTen, METHOD);
    assertThat(figures.of(RunFigure.CONTROLLED_TIME)).isZero();
    // Steepest fall is at the beginning; over the first 0.1 s it is 1 / (tau + 0.1 s). The window
    // ends at the simulator's next point, up to 0.03 s later: 1.5 %.
    assertThat(figures.of(RunFigure.STOP_DECELERATION))
        .isCloseTo(100 / (tau + 0.1), Percentage.withPercentage(1.5));
  }

  /** 45 kW at 1480 rpm, J 2: 50 % after 1.068 s, 10 % after 9.608 s (closed form, rounded). */
  @Test
  void rundownExampleOfASquareLawLoad() {
    Nameplate plate = new Nameplate(45e3, 400, 82, 50, 1480, 0.85, 0.93, 7.0, 2.1, 2.8, null);
    double tau = 2 * Math.pow(1480 * Math.PI / 30, 2) / 45e3;
    assertThat(tau).isCloseTo(1.06757, within(5e-6));
    assertThat(tau)
        .isCloseTo(1 / (plate.ratedTorqueNm() / (2 * 1480 * Math.PI / 30)), within(1e-6));
    assertThat(tau * 9).isCloseTo(9.608, within(5e-4));
  }

  /**
   * Soft stop: the reference is a straight line, so release comes at (1 - release/believed) x ramp.
   */
  @Test
  void softStopLetsGoWhenTheReferenceFallsBelowTheReleaseTorque() {
    MachineModel model =
        model(new LoadCurve(0.7, 0.08, 0.1, 2, 0.03), 3, Supply.ofFaultLevel(400, 20e6, 4));
    Trajectory run =
        RunSimulator.run(
            model, settings(ControlMode.TORQUE_RAMP, 4, 6), RunPlan.startAndStop(60, 4));
    RunFigures figures = RunFigures.of(run, model, RunFigures.PhaseFactors.BALANCED);
    double believed = 1.03 * model.loadTorque(model.settledSpeedPu(), 0) + 0.01;
    assertThat(figures.of(RunFigure.CONTROLLED_TIME)).isCloseTo(8 * (1 - 0.10 / believed), METHOD);
    assertThat(figures.of(RunFigure.STOP_TIME))
        .isGreaterThan(figures.of(RunFigure.CONTROLLED_TIME));
  }

  /**
   * A constant load under a reference that falls as a straight line from the believed torque B in a
   * time D: what is missing grows as B t / (gain D), speed falls by its integral, and the shaft
   * stands long before current ceases. Closed form of uniformly growing deceleration.
   */
  @Test
  void aShaftThatStandsBeforeCurrentCeasesIsAtRestFromThenOn() {
    MachineModel model =
        model(new LoadCurve(0.6, 0.6, 0.6, 1, 0.03), 3, Supply.ofFaultLevel(400, 50e6, 4));
    StarterSettings slow =
        new StarterSettings(6, ControlMode.TORQUE_RAMP, 3, 70, 45, 0, 0, StopMode.SOFT, 10, 8);
    double believed = 1.03 * 0.6 + 0.01;
    double growth = model.accelerationPerS() * believed / (1.03 * slow.rampDownS());
    double restS = Math.sqrt(2 * 0.99 * model.settledSpeedPu() / growth);
    for (Trajectory run :
        java.util.List.of(
            RunSimulator.run(model, slow, RunPlan.startAndStop(60, 4)),
            RunSimulator.runDown(model, slow, 60))) {
      RunFigures figures = RunFigures.of(run, model, RunFigures.PhaseFactors.BALANCED);
      assertThat(figures.of(RunFigure.STOP_TIME)).isCloseTo(restS, METHOD);
      assertThat(figures.of(RunFigure.CONTROLLED_TIME)).isGreaterThan(1.2 * restS);
    }
  }

  @Test
  void currentLimitHoldsTheCurrentAndTheSupplyDipsByIt() {
    Supply supply = Supply.ofFaultLevel(400, 10e6, 1e6);
    MachineModel model = model(new LoadCurve(0.6, 0.08, 0.1, 2, 0.03), 8, supply);
    Trajectory run =
        RunSimulator.run(model, settings(ControlMode.VOLTAGE_RAMP, 3, 2), RunPlan.startOnly(60));
    RunFigures figures = RunFigures.of(run, model, RunFigures.PhaseFactors.BALANCED);
    assertThat(figures.of(RunFigure.PEAK_CURRENT)).isCloseTo(3 * 0.99, within(0.01));
    // Nearly reactive current behind a reactance: dip = X I / V.
    double dip = 100 * supply.reactanceOhm() * 3 * 0.99 * 160 * Math.sqrt(3) / 400;
    assertThat(figures.of(RunFigure.VOLTAGE_DIP)).isCloseTo(dip, Percentage.withPercentage(8));
    assertThat(run.limitedShare()).isGreaterThan(0.8);
  }

  /**
   * Power taken = air-gap power + stator copper loss, the balance of the circuit: T w0 + 3 I^2 R1.
   */
  @Test
  void powerOfTheRunIsThatOfTheAirGapAndTheStatorWinding() {
    CageCircuit circuit = PlateCircuit.of(PLATE, TypicalMotor.of(PLATE));
    MachineModel model =
        model(new LoadCurve(0.8, 0.08, 0.1, 2, 0.03), 8, Supply.ofFaultLevel(400, 10e6, 4));
    Trajectory run =
        RunSimulator.run(
            model, settings(ControlMode.VOLTAGE_RAMP, 4, 5), RunPlan.startAndStop(60, 9));
    RunFigures figures = RunFigures.of(run, model, RunFigures.PhaseFactors.BALANCED);
    double gap = model.loadTorque(run.settledSpeedPu(), 0) * PLATE.ratedTorqueNm();
    double amps = figures.of(RunFigure.RUN_CURRENT);
    double expected =
        gap * PLATE.syncSpeedRadPerS() + 3 * amps * amps * circuit.r1() * PLATE.baseImpedanceOhm();
    assertThat(figures.of(RunFigure.ACTIVE_POWER)).isCloseTo(expected, METHOD);
    assertThat(Math.hypot(figures.of(RunFigure.ACTIVE_POWER), figures.of(RunFigure.REACTIVE_POWER)))
        .isCloseTo(figures.of(RunFigure.APPARENT_POWER), Percentage.withPercentage(1e-6));
    assertThat(figures.of(RunFigure.POWER_FACTOR))
        .isCloseTo(expected / figures.of(RunFigure.APPARENT_POWER), METHOD);
  }

  /** A current held at its limit holds the voltage down as long: the dip lasts while it is held. */
  @Test
  void theDipLastsWhileTheCurrentIsHeld() {
    MachineModel model =
        model(new LoadCurve(0.6, 0.08, 0.1, 2, 0.03), 8, Supply.ofFaultLevel(400, 2.4e6, 1e6));
    Trajectory run =
        RunSimulator.run(model, settings(ControlMode.VOLTAGE_RAMP, 3, 0.5), RunPlan.startOnly(60));
    RunFigures figures = RunFigures.of(run, model, RunFigures.PhaseFactors.BALANCED);
    assertThat(figures.of(RunFigure.VOLTAGE_DIP)).isBetween(11.0, 15.0);
    double held = run.limitedShare() * run.instants().fullSpeedS();
    // The ramp takes half a second to the limit, and the current falls some tenths after it.
    assertThat(figures.of(RunFigure.DIP_DURATION)).isBetween(held - 0.5, held + 0.5);
    assertThat(
            RunFigures.of(run, model, RunFigures.PhaseFactors.BALANCED, 370)
                .of(RunFigure.DIP_DURATION))
        .isZero();
    assertThat(
            RunFigures.of(run, model, RunFigures.PhaseFactors.BALANCED, 450)
                .of(RunFigure.DIP_DURATION))
        .isNaN();
  }

  @Test
  void aLoadThatHoldsMoreThanTheMotorCanGiveIsNeverTurned() {
    MachineModel model =
        model(new LoadCurve(0.8, 0.3, 0.9, 1, 0.03), 8, Supply.ofFaultLevel(400, 10e6, 4));
    Trajectory run =
        RunSimulator.run(model, settings(ControlMode.VOLTAGE_RAMP, 2, 2), RunPlan.startOnly(30));
    assertThat(run.completed()).isFalse();
    assertThat(run.instants().breakawayS()).isNaN();
    assertThat(run.instants().endS()).isCloseTo(30, within(1e-6));
  }

  @Test
  void doublingInertiaDoublesAnUnloadedStartAtTheLimit() {
    double[] times = new double[2];
    for (int k = 0; k < 2; k++) {
      MachineModel model =
          model(new LoadCurve(0, 0, 0, 2, 0.03), 5 * (k + 1), Supply.ofImpedance(0, 4));
      StarterSettings step =
          new StarterSettings(3, ControlMode.VOLTAGE_RAMP, 0, 0, 45, 0, 0, StopMode.COAST, 0, 0);
      times[k] = RunSimulator.run(model, step, RunPlan.startOnly(100)).instants().fullSpeedS();
    }
    assertThat(times[1] / times[0]).isCloseTo(2, within(0.01));
  }

  /**
   * Behind a torque ramp the starter comes to full voltage at the corner where the motor can give
   * no more than the reference; the method may neither hang on it nor jump: over a range of
   * inertias by-passing follows full speed smoothly, and the torque at it is the reference.
   */
  @Test
  void byPassAfterATorqueRampIsDatedSmoothly() {
    double before = Double.NaN;
    double most = 0;
    for (int k = 0; k <= 200; k++) {
      MachineModel model =
          model(
              new LoadCurve(0.58, 0.05, 0.1, 2, 0.03),
              18 * Math.exp(0.0005 * k),
              Supply.ofFaultLevel(400, 10e6, 4));
      StarterSettings ramp =
          new StarterSettings(3.5, ControlMode.TORQUE_RAMP, 35, 20, 40, 0, 0, StopMode.COAST, 5, 5);
      Trajectory run = RunSimulator.run(model, ramp, RunPlan.startOnly(90));
      double bypass = run.instants().bypassS() - run.instants().fullSpeedS();
      assertThat(bypass).isPositive();
      if (k > 0) {
        most = Math.max(most, Math.abs(bypass - before));
      }
      before = bypass;
    }
    // A step of 0.05 % in inertia moves it by milliseconds; one step of the method is 130 ms.
    assertThat(most).isLessThan(0.05);
  }
}
