package rampwright.acquisition.bench;

import java.time.Instant;
import rampwright.acquisition.device.Timekeeper;
import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.LoadCurve;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.Nameplate;
import rampwright.analysis.machine.PlateCircuit;
import rampwright.analysis.machine.SlipTable;
import rampwright.analysis.machine.StarterLaw;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.StopMode;
import rampwright.analysis.machine.Supply;
import rampwright.analysis.machine.TypicalMotor;

/** An invented motor on a square-law load, and a clock that is moved by hand. */
final class BenchMachine {
  static final MachineModel MODEL = model(new LoadCurve(0.9, 0, 0, 2, 0.03), 6);

  static final StarterSettings SETTINGS = settings(4, StopMode.COAST);

  private BenchMachine() {}

  static StarterSettings settings(double limit, StopMode stop) {
    return new StarterSettings(limit, ControlMode.TORQUE_RAMP, 5, 30, 45, 0, 0, stop, 10, 8);
  }

  static MachineModel model(LoadCurve load, double inertiaKgM2) {
    Nameplate plate = new Nameplate(45e3, 400, 82, 50, 1480, 0.85, 0.93, 7.0, 2.1, 2.8, null);
    SlipTable motor =
        new SlipTable(PlateCircuit.of(plate, TypicalMotor.of(plate)), plate.torquePerAirGapPower());
    return new MachineModel(
        plate,
        motor,
        StarterLaw.EXACT,
        Supply.ofFaultLevel(400, 10e6, 4),
        400,
        load,
        null,
        inertiaKgM2);
  }

  /** Moved by hand. */
  static final class Clock implements Timekeeper {
    private double nowS;

    void pass(double seconds) {
      nowS += seconds;
    }

    @Override
    public long nanos() {
      return Math.round(nowS * 1e9);
    }

    @Override
    public Instant utc() {
      return Instant.EPOCH;
    }
  }
}
