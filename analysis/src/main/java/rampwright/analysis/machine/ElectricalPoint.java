package rampwright.analysis.machine;

/**
 * Voltages, current and torque of a model at one instant; reused from instant to instant, so that a
 * run makes no garbage.
 *
 * <p>Formula: terminal voltage V1 = k V, k the starter's voltage ratio; current I = V1 |Y(s)|;
 * source E = |V + Z I|, with the line's power factor k cos(phi), phi the motor's angle: a starter
 * passes power but no lossless device can make the phase displacement of the line equal the motor's
 * (energy balance V I cos(phi line) = V1 I cos(phi)). Symbols: V line side of the starter, E
 * source, Z supply impedance, s slip. Only the fundamental makes torque; the RMS current that is
 * measured is larger by {@link StarterLaw#measuredFactor}, the one the limit acts on by {@link
 * StarterLaw#poleFactor}.
 */
final class ElectricalPoint {
  private static final int PASSES = 3;
  private static final int HOLD_PASSES = 6;
  private static final double SETTLED = 3e-6;
  private static final double STEEPEST = 0.5;
  private static final double LARGEST_DEMAND = 10;

  private final SlipTable motor;
  private final StarterLaw starter;
  private final double resistance;
  private final double reactance;
  private final double cableResistance;
  private final double cableReactance;
  private final double source;

  /** Fundamental voltage ratio k; kept as the first guess of the next instant. */
  double ratio = 0.3;

  /** Line-side voltage, per unit of rated voltage. */
  double busVoltage;

  /** Line voltage where it is measured, per unit: the line-side one, or that before a cable. */
  double measuredVoltage;

  /** Motor terminal fundamental voltage, per unit of rated voltage. */
  double motorVoltage;

  /** RMS current over rated current, where it is measured. */
  double current;

  /** Air-gap torque, per unit of rated torque. */
  double torque;

  /** Whether the current limit rules. */
  boolean limited;

  /** Whether the starter gives all the voltage it can. */
  boolean full;

  /**
   * Voltage that the reference asks for over all the voltage there is; passes through one where the
   * starter begins to give all it can.
   */
  double demand;

  /** Slope of the fixed point's next value over its guess, from the instant before. */
  private double lean;

  private double speed;
  private double admittance;
  private double powerFactor;
  private double torqueFactor;
  private double fullRatio;

  ElectricalPoint(MachineModel model) {
    this.motor = model.motor();
    this.starter = model.starter();
    double base = model.plate().baseImpedanceOhm();
    this.resistance = model.supply().resistanceOhm() / base;
    this.reactance = model.supply().reactanceOhm() / base;
    this.cableResistance = model.cable().resistanceOhm() / base;
    this.cableReactance = model.cable().reactanceOhm() / base;
    this.source = model.sourceVoltageV() / model.plate().ratedVoltageV();
  }

  /** Nothing flows. */
  void off() {
    ratio = 0.3;
    busVoltage = source;
    measuredVoltage = source;
    motorVoltage = 0;
    current = 0;
    torque = 0;
    limited = false;
    full = false;
    demand = 0;
  }

  /** Full voltage, by-passed: no limit acts. */
  void fullVoltage(double speedPu) {
    look(speedPu);
    atRatio(1.0);
    limited = false;
    full = true;
    demand = 1;
  }

  /** A voltage ratio, held down by the current limit (of rated current). */
  void voltage(double speedPu, double wantedRatio, double limit) {
    look(speedPu);
    atRatio(starter.ratioFor(wantedRatio) * fullRatio);
    limited = false;
    full = wantedRatio >= 0.9999;
    demand = wantedRatio;
    if (poleCurrent() > limit * starter.limitGain()) {
      hold(limit * starter.limitGain());
    }
  }

  /** A torque reference as the starter sees torque, held down by the current limit. */
  void torque(double speedPu, double reference, double limit) {
    look(speedPu);
    double wanted = Math.max(0, reference - starter.torqueOffset());
    // Believed torque per squared motor voltage; the squared current counts against it.
    double believed =
        starter.torqueGainAt(speed) * torqueFactor - starter.lossTorque() * admittance * admittance;
    double most = limit * starter.limitGain();
    limited = false;
    full = false;
    if (believed <= 0) {
      atRatio(fullRatio);
      full = true;
      demand = LARGEST_DEMAND;
    } else {
      double voltage = Math.sqrt(wanted / believed);
      atMotorVoltage(voltage);
      demand = Math.min(LARGEST_DEMAND, voltage / (fullRatio * busVoltage));
    }
    if (poleCurrent() > most) {
      hold(most);
    }
  }

  /** What the starter believes the present torque is. */
  double believedTorque() {
    double fundamental = admittance * motorVoltage;
    return starter.torqueGainAt(speed) * torque
        + starter.torqueOffset()
        - starter.lossTorque() * fundamental * fundamental;
  }

  /**
   * The voltage at which the RMS current is the limit: one fixed point for line-side voltage and
   * harmonics together, from the ratio of the instant before.
   */
  private void hold(double mostCurrent) {
    double k = Math.min(fullRatio, ratio);
    double bus = 1;
    double voltage = 0;
    double lastK = Double.NaN;
    double lastNext = Double.NaN;
    for (int pass = 0; pass < HOLD_PASSES; pass++) {
      voltage = mostCurrent / (admittance * starter.poleFactor(k));
      bus = busBehind(voltage * admittance, k);
      double next = voltage / bus;
      double off = next - k;
      if (Math.abs(off) < SETTLED) {
        k = Math.min(fullRatio, next);
        break;
      }
      // How the point moves with its guess hardly changes from instant to instant: with it most
      // are found at the second look.
      double moved = k - lastK;
      if (Math.abs(moved) > SETTLED) {
        lean = Math.max(-STEEPEST, Math.min(STEEPEST, (next - lastNext) / moved));
      }
      lastK = k;
      lastNext = next;
      k = Math.min(fullRatio, k + off / (1 - lean));
    }
    if (voltage >= bus * fullRatio) {
      atRatio(fullRatio);
    } else {
      busVoltage = bus;
      ratio = k;
      settle(voltage);
    }
    limited = true;
    full = false;
    demand = Math.min(demand, ratio / fullRatio);
  }

  private void look(double speedPu) {
    speed = speedPu;
    double slip = 1.0 - speedPu;
    if (slip > 0) {
      double place = SlipTable.place(slip);
      admittance = motor.admittanceAt(place);
      powerFactor = motor.powerFactorAt(place);
      torqueFactor = motor.torqueAt(place);
    } else {
      admittance = motor.admittance(slip);
      powerFactor = motor.powerFactor(slip);
      torqueFactor = motor.torque(slip);
    }
    fullRatio = starter.fullRatio(powerFactor);
  }

  private void atRatio(double k) {
    double y = k * admittance;
    double cos = k * powerFactor;
    double sin = Math.sqrt(Math.max(0, 1 - cos * cos));
    double along = 1 + y * (resistance * cos + reactance * sin);
    double across = y * (reactance * cos - resistance * sin);
    busVoltage = source / Math.sqrt(along * along + across * across);
    ratio = k;
    settle(k * busVoltage);
  }

  private void atMotorVoltage(double voltage) {
    double y = voltage * admittance;
    double k = Math.min(fullRatio, ratio);
    for (int pass = 0; pass < PASSES; pass++) {
      double bus = busBehind(y, k);
      if (voltage >= bus * fullRatio) {
        atRatio(fullRatio);
        full = true;
        return;
      }
      busVoltage = bus;
      double next = voltage / bus;
      boolean settled = Math.abs(next - k) < SETTLED;
      k = next;
      if (settled) {
        break;
      }
    }
    ratio = k;
    settle(voltage);
  }

  /** Line-side voltage behind the supply when a fundamental current flows at a voltage ratio. */
  private double busBehind(double fundamental, double k) {
    double cos = k * powerFactor;
    double sin = Math.sqrt(Math.max(0, 1 - cos * cos));
    double along = fundamental * (resistance * cos + reactance * sin);
    double across = fundamental * (reactance * cos - resistance * sin);
    return Math.sqrt(Math.max(1e-4, source * source - across * across)) - along;
  }

  /** What the current limit acts on, per unit. */
  private double poleCurrent() {
    return starter.wiring().measuresPole()
        ? current
        : motorVoltage * admittance * starter.poleFactor(ratio);
  }

  private void settle(double voltage) {
    motorVoltage = voltage;
    current = voltage * admittance * starter.measuredFactor(ratio);
    torque = torqueFactor * voltage * voltage;
    measuredVoltage = beforeCable(voltage * admittance);
  }

  /** |V + Z I| of the cable, as {@link #busBehind} is of the whole supply. */
  private double beforeCable(double fundamental) {
    if (cableResistance == 0 && cableReactance == 0) {
      return busVoltage;
    }
    double cos = ratio * powerFactor;
    double sin = Math.sqrt(Math.max(0, 1 - cos * cos));
    return Math.hypot(
        busVoltage + fundamental * (cableResistance * cos + cableReactance * sin),
        fundamental * (cableReactance * cos - cableResistance * sin));
  }
}
