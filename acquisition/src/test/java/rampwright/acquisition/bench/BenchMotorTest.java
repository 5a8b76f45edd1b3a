package rampwright.acquisition.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import rampwright.acquisition.bench.BenchMotor.State;
import rampwright.analysis.machine.LoadCurve;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.RunFigure;
import rampwright.analysis.machine.RunFigures;
import rampwright.analysis.machine.RunPlan;
import rampwright.analysis.machine.RunSimulator;
import rampwright.analysis.machine.StarterLaw;
import rampwright.analysis.machine.StopMode;
import rampwright.analysis.machine.Wiring;

/** What is played, against closed forms and the simulator, on a clock moved by hand. */
class BenchMotorTest {
  /** The simulator's own agreement with high-order solvers (its reference test). */
  private static final double METHOD = 0.005;

  private final BenchMachine.Clock clock = new BenchMachine.Clock();

  private BenchMotor motor(double pace) {
    return new BenchMotor(BenchMachine.MODEL, BenchMachine.SETTINGS, clock, pace);
  }

  private static double syncRpm() {
    return BenchMachine.MODEL.plate().syncSpeedRpm();
  }

  @Test
  void ordersAndStates() {
    BenchMotor motor = motor(1);
    assertThat(motor.state()).isEqualTo(State.AT_REST);
    assertThat(motor.stop()).isFalse();
    assertThat(motor.reading()).isEqualTo(new BenchReading(0, 400, 0, false));
    assertThat(motor.start()).isTrue();
    assertThat(motor.start()).as("a start while starting").isFalse();
    clock.pass(1);
    assertThat(motor.state()).isEqualTo(State.STARTING);
    assertThat(motor.reading().run()).isTrue();
    clock.pass(59);
    assertThat(motor.state()).isEqualTo(State.RUNNING);
    assertThat(motor.reading().speedRpm() / syncRpm())
        .isEqualTo(BenchMachine.MODEL.settledSpeedPu(), within(0.001));
    clock.pass(86_400);
    assertThat(motor.state()).as("a day later").isEqualTo(State.RUNNING);
    assertThat(motor.stop()).isTrue();
    assertThat(motor.state()).isEqualTo(State.SLOWING);
    assertThat(motor.start()).as("a start from a turning shaft").isFalse();
    clock.pass(1000);
    assertThat(motor.state()).isEqualTo(State.AT_REST);
    assertThat(motor.start()).isTrue();
  }

  /** By-passed, where nothing circulates: a winding carries 1 / sqrt(3) of the line's current. */
  @Test
  void metersInsideADeltaShowWindingCurrents() {
    double[] amps = new double[2];
    for (int k = 0; k < 2; k++) {
      MachineModel line = BenchMachine.MODEL;
      Wiring wiring = k == 0 ? Wiring.DELTA_SEEN_IN_LINE : Wiring.DELTA_SEEN_INSIDE;
      MachineModel wired =
          new MachineModel(
              line.plate(),
              line.motor(),
              new StarterLaw(1, 0, 0, 0, 0, 1, 0, 0, wiring),
              line.supply(),
              line.sourceVoltageV(),
              line.load(),
              line.water(),
              line.inertiaKgM2());
      BenchMotor motor = new BenchMotor(wired, BenchMachine.settings(4, StopMode.COAST), clock, 1);
      motor.start();
      clock.pass(100);
      amps[k] = motor.reading().currentA();
    }
    assertThat(amps[0]).isGreaterThan(40);
    assertThat(amps[1]).isEqualTo(amps[0] / Math.sqrt(3), within(1e-9 * amps[0]));
  }

  /**
   * Square-law coasting: w = w0 / (1 + t/tau), tau = J w0 / T0; pace makes the clock's seconds
   * longer, nothing else.
   */
  @Test
  void coastingFollowsTheClosedFormAtAnyPace() {
    MachineModel model = BenchMachine.MODEL;
    double settled = model.settledSpeedPu();
    double tau = settled / (model.accelerationPerS() * model.loadTorque(settled, 0));
    for (double pace : new double[] {1, 7}) {
      BenchMotor motor = motor(pace);
      motor.start();
      clock.pass(100 / pace);
      motor.stop();
      for (double t : new double[] {0.1 * tau, tau, 5 * tau}) {
        clock.pass(t / pace);
        assertThat(motor.reading().speedRpm())
            .as("pace %s, %s s", pace, t)
            .isEqualTo(settled * syncRpm() / (1 + t / tau), within(METHOD * settled * syncRpm()));
        assertThat(motor.reading().currentA()).isZero();
        assertThat(motor.reading().run()).isFalse();
        clock.pass(-t / pace);
      }
      clock.pass(1000);
    }
  }

  @Test
  void theStartIsTheSimulators() {
    RunFigures expected =
        RunFigures.of(
            RunSimulator.run(
                BenchMachine.MODEL, BenchMachine.SETTINGS, RunPlan.startOnly(BenchMotor.GIVE_UP_S)),
            BenchMachine.MODEL,
            RunFigures.PhaseFactors.BALANCED);
    BenchMotor motor = motor(1);
    motor.start();
    double peakA = 0;
    double full = Double.NaN;
    double stepS = 0.01;
    for (int k = 1; k < 3000; k++) {
      clock.pass(stepS);
      peakA = Math.max(peakA, motor.reading().currentA());
      boolean there =
          motor.reading().speedRpm() >= 0.95 * BenchMachine.MODEL.settledSpeedPu() * syncRpm();
      full = there && Double.isNaN(full) ? k * stepS : full;
    }
    assertThat(full).isEqualTo(expected.of(RunFigure.START_TIME), within(2 * stepS));
    // Between two looks a peak can pass by a little.
    double expectedA = expected.of(RunFigure.PEAK_CURRENT_A);
    assertThat(peakA).isEqualTo(expectedA, within(0.01 * expectedA));
  }

  /** Cut off half-way, the shaft goes on from the speed it had. */
  @Test
  void aStopWhileStartingCutsAndCoasts() {
    BenchMotor motor = motor(1);
    motor.start();
    while (motor.reading().speedRpm() < 0.5 * syncRpm()) {
      clock.pass(0.01);
    }
    double before = motor.reading().speedRpm();
    assertThat(motor.stop()).isTrue();
    assertThat(motor.reading().speedRpm()).isEqualTo(before, within(METHOD * syncRpm()));
    assertThat(motor.reading().currentA()).isZero();
    clock.pass(0.5);
    assertThat(motor.reading().speedRpm()).isLessThan(before);
  }

  @Test
  void aStartThatCannotBreakAwayIsGivenUp() {
    MachineModel stuck = BenchMachine.model(new LoadCurve(1.5, 1.4, 1.5, 2, 0.03), 6);
    BenchMotor motor = new BenchMotor(stuck, BenchMachine.settings(1.5, StopMode.SOFT), clock, 1);
    motor.start();
    clock.pass(60);
    assertThat(motor.reading().speedRpm()).isZero();
    // The limit is on current over the rated one.
    assertThat(motor.reading().currentA() / 82).isEqualTo(1.5, within(0.02));
    clock.pass(BenchMotor.GIVE_UP_S);
    assertThat(motor.reading().currentA()).isZero();
    clock.pass(10);
    assertThat(motor.state()).isEqualTo(State.AT_REST);
  }

  /** A soft stop takes longer than a coast for a load that stops by itself sooner. */
  @Test
  void settingsCountFromTheNextStop() {
    BenchMotor motor = motor(1);
    motor.start();
    clock.pass(60);
    motor.set(BenchMachine.settings(4, StopMode.SOFT));
    motor.stop();
    clock.pass(1);
    assertThat(motor.reading().currentA()).as("current goes on in a soft stop").isPositive();
  }
}
