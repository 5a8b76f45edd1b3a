package rampwright.exam.plant;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The plant against numbers made elsewhere.
 *
 * <p>Machines: Krause, Analysis of Electric Machinery, induction-machine table (60 Hz, 4 poles);
 * locked-rotor and breakdown figures and the full dq starts are computed from that table with an
 * adaptive Runge-Kutta solver.
 */
class QuasiSteadyPlantReferenceTest {
  /** The figures are given with four or five digits. */
  private static final double PRINTED = 6e-4;

  private static TrueMachine krause(
      double volt, double rs, double xl, double xm, double rr, double inertia, double ratedA) {
    // one cage: the outer one carries nothing
    return new TrueMachine(
        volt, 60, 2, rs, xl, xm, 1e12, 0, rr, xl, 0, 1e9, ratedA, 12, 180, 0, inertia);
  }

  @ParameterizedTest
  @CsvSource({
    "220, .435, .754, 26.13, .816, 65.74, 52.97, .52680, 61.87",
    "460, .087, .302, 13.08, .228, 394.18, 538.50, .37781, 780.98",
    "2300, .262, 1.206, 54.02, .187, 547.21, 852.70, .077917, 5065.0",
    "2300, .029, .226, 13.04, .022, 2944.4, 2933.0, .048988, 28417"
  })
  void lockedRotorAndBreakdownOfKrauseMachines(
      double volt,
      double rs,
      double xl,
      double xm,
      double rr,
      double lockedA,
      double lockedNm,
      double slip,
      double breakdownNm) {
    TrueMachine machine = krause(volt, rs, xl, xm, rr, 1, 10);
    assertThat(machine.at(1).currentA()).isCloseTo(lockedA, within(PRINTED * lockedA));
    assertThat(machine.at(1).torqueNm()).isCloseTo(lockedNm, within(PRINTED * lockedNm));
    assertThat(machine.at(slip).torqueNm()).isCloseTo(breakdownNm, within(PRINTED * breakdownNm));
    assertThat(machine.at(slip * 1.05).torqueNm()).isLessThan(machine.at(slip).torqueNm());
    assertThat(machine.at(slip / 1.05).torqueNm()).isLessThan(machine.at(slip).torqueNm());
  }

  private static TruePlant unloaded(TrueMachine machine) {
    double[] even = {1, 1, 1};
    return new TruePlant(
        machine,
        new TrueLoad("none", 0, machine.syncRadPerS(), 0, 2, 0, 0.05, 0, 1, 0),
        new TrueStarter(machine.ratedCurrentA(), 1, 0, 0, 1, 0, 0, 1e-9, 60),
        new TrueSupply(machine.lineVoltageV(), 0, 0, even, even),
        0,
        0,
        0);
  }

  /** Full voltage at once and no limit: what a contactor does. */
  private static final PlantSettings DIRECT =
      new PlantSettings(false, false, new double[] {0, 100, 0.5, 1000, 0, 0, 10, 10});

  /**
   * Direct start of the 3 hp machine without load. A quasi-steady run-up turns exactly the final
   * kinetic energy to heat in the rotor. The full dq start takes 0.3341 s to 95 %; the quasi-steady
   * one may be a tenth shorter since it has no oscillating torque at the beginning.
   */
  @Test
  void directStartWithoutLoadHeatsTheRotorByTheKineticEnergy() {
    TrueMachine machine = krause(220, .435, .754, 26.13, .816, .089, 5.8);
    TruePlant plant = unloaded(machine);
    Run run =
        new QuasiSteadyPlant(plant)
            .run(DIRECT, TruePlant.Day.USUAL, new QuasiSteadyPlant.Conduct(2, Double.NaN, false));
    TrueFigures figures = TrueFigures.of(run, plant, 5.8, 1710);
    double energy = 0.5 * .089 * machine.syncRadPerS() * machine.syncRadPerS();
    assertThat(energy).isCloseTo(1581.1, within(0.5));
    // first-order steps of 1 ms over 0.33 s: 1 %
    assertThat(figures.get("rotor_loss_J")).isCloseTo(energy, within(0.01 * energy));
    assertThat(figures.get("start_time_s")).isBetween(0.9 * 0.3341, 1.02 * 0.3341);
    assertThat(figures.get("start_time_s")).isCloseTo(quadrature(machine), within(0.004));
    // kept every 10 ms: by then the shaft turns at 3 % and the current is down by half a percent
    assertThat(figures.get("peak_current_ratio") * 5.8).isCloseTo(65.74, within(0.006 * 65.74));
  }

  /** Time to 95 % of synchronous speed: the integral of J dw / T, by the midpoint rule. */
  private static double quadrature(TrueMachine machine) {
    double sync = machine.syncRadPerS();
    int many = 4000;
    double sum = 0;
    for (int n = 0; n < many; n++) {
      double x = 0.95 * (n + 0.5) / many;
      sum += machine.inertiaKgM2() * 0.95 * sync / many / machine.at(1 - x).torqueNm();
    }
    return sum;
  }

  /**
   * Coasting against a square-law load: speed = w0 / (1 + t / tau), tau = J w0^2 / P0. J = 2 kg m2,
   * 45 kW at 1480 1/min: half speed after 1.068 s, a tenth after 9.608 s (closed form).
   */
  @Test
  void coastingAgainstASquareLaw() {
    double full = 1480 * Math.PI / 30;
    TrueMachine machine =
        new TrueMachine(
            400, 50, 2, 0.05, 0.2, 10, 1e12, 0, 0.01, 0.2, 0, 1e9, 85, 290, full, 0, 1.5);
    double[] even = {1, 1, 1};
    TruePlant plant =
        new TruePlant(
            machine,
            new TrueLoad("pump", 45000 / full, full, 0, 2, 0, 0.05, 0, 1, 0.5),
            new TrueStarter(85, 1, 0, 0, 1, 0, 0, 1e-9, 60),
            new TrueSupply(400, 0, 0, even, even),
            0,
            0,
            0);
    Run run =
        new QuasiSteadyPlant(plant)
            .run(DIRECT, TruePlant.Day.USUAL, new QuasiSteadyPlant.Conduct(4, Double.NaN, true));
    int at = (int) Math.rint(run.stopBeginS() / Run.STEP_S);
    double w0 = run.speedRadPerS(at);
    double tau = 2 * full * full * full / 45000 / w0;
    for (double t : new double[] {1.06, 4, 9.6}) {
      double expected = w0 / (1 + t / tau);
      assertThat(run.speedRadPerS(at + (int) Math.rint(t / Run.STEP_S)))
          .as("speed %s s after the cut", t)
          .isCloseTo(expected, within(0.004 * expected));
    }
    assertThat(tau).isCloseTo(1.06757 * full / w0, within(1e-4));
  }
}
