package rampwright.analysis.machine;

import org.jspecify.annotations.Nullable;

/**
 * A motor circuit complete enough to be started and stopped: motor, starter, supply and load.
 *
 * @param plate nameplate; gives the per-unit bases
 * @param motor circuit tabulated over slip, per unit
 * @param starter how the starter errs
 * @param supply source impedance, ohm
 * @param sourceVoltageV line-to-line voltage at the starter's line side before the start, V RMS
 * @param load torque against speed
 * @param water column behind a pump; null when torque depends on speed alone
 * @param inertiaKgM2 motor and load at the motor shaft
 * @param pipe what the pump feeds, for surge; null when not known
 * @param cable the part of the supply between where voltages are measured and the starter, ohm;
 *     {@link Supply#NONE} where they are measured at the starter
 */
public record MachineModel(
    Nameplate plate,
    SlipTable motor,
    StarterLaw starter,
    Supply supply,
    double sourceVoltageV,
    LoadCurve load,
    @Nullable WaterColumn water,
    double inertiaKgM2,
    @Nullable Pipe pipe,
    Supply cable) {

  public MachineModel {
    if (!(inertiaKgM2 > 0) || !(sourceVoltageV > 0)) {
      throw new IllegalArgumentException(
          "model: inertia "
              + inertiaKgM2
              + " kg m2 and source voltage "
              + sourceVoltageV
              + " V must be above zero");
    }
  }

  /** A circuit without a pipe, voltages measured at the starter. */
  public MachineModel(
      Nameplate plate,
      SlipTable motor,
      StarterLaw starter,
      Supply supply,
      double sourceVoltageV,
      LoadCurve load,
      @Nullable WaterColumn water,
      double inertiaKgM2) {
    this(
        plate, motor, starter, supply, sourceVoltageV, load, water, inertiaKgM2, null, Supply.NONE);
  }

  /** Rated current where currents are measured, A RMS: of the line, or of a winding in a delta. */
  public double measuredRatedCurrentA() {
    return plate.ratedCurrentA() * starter.wiring().measuredShare();
  }

  /**
   * Squared winding current that is not measured, over the measured square, at a measured current
   * of rated: see {@link Wiring#unseenShare}.
   */
  public double unseenShare(double currentRatio) {
    return starter.wiring().unseenShare(currentRatio, motor.admittance(1));
  }

  /** Speed gained per second by one per unit of net torque, per unit of synchronous speed. */
  public double accelerationPerS() {
    return plate.ratedTorqueNm() / (inertiaKgM2 * plate.syncSpeedRadPerS());
  }

  /** The same circuit with another source voltage. */
  public MachineModel withSourceVoltageV(double volt) {
    return new MachineModel(
        plate, motor, starter, supply, volt, load, water, inertiaKgM2, pipe, cable);
  }

  /** The same circuit with another load. */
  public MachineModel withLoad(LoadCurve torque) {
    return new MachineModel(
        plate, motor, starter, supply, sourceVoltageV, torque, water, inertiaKgM2, pipe, cable);
  }

  /**
   * Load torque at a speed and flow, per unit of rated torque.
   *
   * @param flow of a water column; not looked at without one
   */
  public double loadTorque(double speedPu, double flow) {
    if (water == null) {
      return load.at(speedPu);
    }
    return load.rubbing(speedPu)
        + (load.fullTorque() - load.minimumTorque()) * water.torqueShare(speedPu, flow);
  }

  /**
   * Speed at which the motor settles at full voltage, per unit; 0 when it cannot hold the load
   * anywhere above half speed.
   */
  public double settledSpeedPu() {
    ElectricalPoint point = new ElectricalPoint(this);
    double low = 0.5;
    double high = 1.0;
    if (surplus(point, low) < 0 && surplus(point, 0.9) < 0) {
      return 0;
    }
    if (surplus(point, low) < 0) {
      low = 0.9;
    }
    for (int k = 0; k < 26; k++) {
      double middle = 0.5 * (low + high);
      if (surplus(point, middle) > 0) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return 0.5 * (low + high);
  }

  private double surplus(ElectricalPoint point, double speedPu) {
    point.fullVoltage(speedPu);
    return point.torque - loadTorque(speedPu, water == null ? 0 : water.steadyFlow(speedPu));
  }
}
