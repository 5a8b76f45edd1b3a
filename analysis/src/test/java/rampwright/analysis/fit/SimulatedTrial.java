package rampwright.analysis.fit;

import java.util.Random;
import rampwright.analysis.machine.CageCircuit;
import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.LoadCurve;
import rampwright.analysis.machine.LoadKind;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.Nameplate;
import rampwright.analysis.machine.PlateCircuit;
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

/** A conveyor-like asset whose truth is known, and noisy 25 Hz readings of its trials. */
final class SimulatedTrial {
  static final Nameplate PLATE =
      new Nameplate(75e3, 400, 138, 50, 1480, 0.85, 0.94, 6.5, 2.0, 2.7, 1.1);
  static final double INERTIA = 4.6;
  static final LoadCurve LOAD = new LoadCurve(0.62, 0.28, 0.42, 1.1, 0.03);
  static final AssetData DATA =
      new AssetData(PLATE, LoadKind.LINEAR, 2.9, null, null, 400, 0.016, Wiring.IN_LINE);

  private SimulatedTrial() {}

  static MachineModel truth() {
    CageCircuit circuit = PlateCircuit.of(PLATE, TypicalMotor.of(PLATE));
    // The plate is not the machine: 6 % more leakage, 8 % less outer cage resistance.
    CageCircuit real =
        new CageCircuit(
            circuit.r1(),
            1.06 * circuit.x1(),
            circuit.xm(),
            circuit.ra(),
            circuit.xa(),
            0.92 * circuit.rb(),
            circuit.xb());
    return new MachineModel(
        PLATE,
        new SlipTable(real, PLATE.torquePerAirGapPower()),
        new StarterLaw(1.03, -0.01, 0.006, 0, 0, 1.012, 0.12, 0.12, Wiring.IN_LINE),
        Supply.ofImpedance(0.018, 3),
        404,
        LOAD,
        null,
        INERTIA);
  }

  static StarterSettings settings(ControlMode control, double limit, double rampS, double first) {
    return new StarterSettings(limit, control, rampS, first, first, 0, 0, StopMode.COAST, 10, 10);
  }

  static TrialObservation of(StarterSettings settings, boolean speedSeen, long seed) {
    return of(settings, new RunPlan(Double.NaN, 4, 30, true, 60), speedSeen, seed, 1);
  }

  /** A start that is cut this long after inception, still running up. */
  static TrialObservation cut(StarterSettings settings, double afterS, long seed) {
    return of(settings, new RunPlan(Double.NaN, 4, afterS, false, 0), true, seed, 1);
  }

  /** Readings with so many times the usual noise. */
  static TrialObservation noisy(StarterSettings settings, long seed, double noise) {
    return of(settings, new RunPlan(Double.NaN, 4, 30, true, 60), true, seed, noise);
  }

  /** A start, a run of so many seconds and the stop. */
  static TrialObservation running(StarterSettings settings, double runS, long seed) {
    return of(settings, new RunPlan(Double.NaN, runS, 30, true, 60), true, seed, 1);
  }

  /** A start and stop of another circuit, of the same plate, as it is measured there. */
  static TrialObservation of(MachineModel model, StarterSettings settings, long seed) {
    return of(model, settings, new RunPlan(Double.NaN, 4, 30, true, 60), true, seed, 1);
  }

  private static TrialObservation of(
      StarterSettings settings, RunPlan plan, boolean speedSeen, long seed, double times) {
    return of(truth(), settings, plan, speedSeen, seed, times);
  }

  private static TrialObservation of(
      MachineModel model,
      StarterSettings settings,
      RunPlan plan,
      boolean speedSeen,
      long seed,
      double times) {
    double ratedA = model.measuredRatedCurrentA();
    Trajectory run = RunSimulator.run(model, settings, plan);
    Random noise = new Random(seed);
    double interval = 0.04;
    int before = 50;
    int size = before + (int) (run.instants().endS() / interval) + 30;
    double[] time = new double[size];
    double[][] amps = new double[3][size];
    double[][] volts = new double[3][size];
    double[] rpm = new double[size];
    for (int k = 0; k < size; k++) {
      time[k] = k * interval;
      double at = time[k] - before * interval;
      boolean inside = at >= 0 && at <= run.instants().endS();
      int index = inside ? Math.min(run.indexAt(at), run.size() - 2) : 0;
      double width = run.timeS(index + 1) - run.timeS(index);
      double part = width > 0 ? Math.min(1, (at - run.timeS(index)) / width) : 1;
      double current = inside ? mix(run.currentRatio(index), run.currentRatio(index + 1), part) : 0;
      double volt =
          inside
              ? mix(run.measuredVoltagePu(index), run.measuredVoltagePu(index + 1), part)
              : model.sourceVoltageV() / PLATE.ratedVoltageV();
      double speed = inside ? mix(run.speedPu(index), run.speedPu(index + 1), part) : 0;
      for (int phase = 0; phase < 3; phase++) {
        double unbalance = 1 + 0.01 * (phase - 1);
        amps[phase][k] =
            Math.abs(current * unbalance * ratedA * 1.003 + times * 0.4 * noise.nextGaussian());
        volts[phase][k] = volt * PLATE.ratedVoltageV() * 0.998 + times * 0.5 * noise.nextGaussian();
      }
      rpm[k] = speed * PLATE.syncSpeedRpm() + times * 2 * noise.nextGaussian();
    }
    return new ObservationBuilder(settings, ratedA)
        .readings(time, amps, volts, speedSeen ? rpm : null)
        .build();
  }

  private static double mix(double a, double b, double part) {
    return a + part * (b - a);
  }
}
