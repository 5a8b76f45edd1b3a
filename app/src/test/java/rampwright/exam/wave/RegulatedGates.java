package rampwright.exam.wave;

import rampwright.exam.plant.PlantSettings;
import rampwright.exam.plant.Setting;
import rampwright.exam.plant.TrueMachine;
import rampwright.exam.plant.TrueStarter;

/**
 * The starter's firing: torque or voltage ramp, current limit, breakaway pulse, by-pass, soft stop.
 *
 * <p>Method: every half cycle it measures the current (RMS of the three phases), the torque (power
 * less stator copper, over synchronous speed) and the fundamental of the motor voltage, and moves
 * its drive c in [0, 1] by the logarithm of wanted over measured. Firing angle = 150 - 125 c
 * degrees after the zero of the phase voltage; at c = 1 a motor conducts without a gap.
 */
public final class RegulatedGates implements Gates {
  private static final double GAIN = 0.14;

  /** Near full speed a motor under phase control swings of its own; a hasty drive feeds that. */
  private static final double GAIN_NEAR_FULL_SPEED = 0.03;

  private final PlantSettings settings;
  private final TrueMachine plate;
  private final TrueStarter starter;
  private final double beginS;
  private double drive = 0.08;
  private double sumSquare;
  private double sumPower;
  private final double[] sumVolt = new double[2];
  private double window;
  private double torqueEstimate;
  private double currentA;
  private double voltShare;
  private int fullHalfCycles;
  private boolean bypass;
  private boolean stopping;
  private boolean dead;
  private double stopBeginS = Double.NaN;
  private double releaseS = Double.NaN;
  private double bypassS = Double.NaN;
  private double stopTorque;

  /**
   * @param plate the machine, for its rated torque and current
   * @param beginS when the start is ordered
   */
  public RegulatedGates(
      PlantSettings settings, TrueMachine plate, TrueStarter starter, double beginS) {
    this.settings = settings;
    this.plate = plate;
    this.starter = starter;
    this.beginS = beginS;
  }

  /** The stop order. */
  public void stop(double t) {
    stopBeginS = t;
    if (settings.softStop() && bypass) {
      stopping = true;
      bypass = false;
      drive = 1;
      stopTorque = Math.max(0, torqueEstimate);
    } else {
      cut(t);
    }
  }

  /** No gate signal any more. */
  public void cut(double t) {
    dead = true;
    bypass = false;
    stopBeginS = Double.isNaN(stopBeginS) ? t : stopBeginS;
    releaseS = t;
  }

  public boolean isDead() {
    return dead;
  }

  public double bypassS() {
    return bypassS;
  }

  public double stopBeginS() {
    return stopBeginS;
  }

  public double releaseS() {
    return releaseS;
  }

  @Override
  public boolean fires(int phase, boolean forward, double angleRad, double t) {
    return !dead && t >= beginS && Gates.inWindow(angleRad, firingAngle(), forward);
  }

  private double firingAngle() {
    return Math.toRadians(150 - 125 * drive);
  }

  @Override
  public boolean bypassed(double t) {
    return bypass;
  }

  private final double[] volts = new double[3];

  @Override
  public void observe(double dt, Bridge bridge) {
    double t = bridge.time();
    if (dead || t < beginS) {
      return;
    }
    bridge.motorVoltage(volts);
    for (int p = 0; p < 3; p++) {
      double i = bridge.current(p);
      double angle = bridge.supply().angle(p, t);
      sumSquare += i * i / 3 * dt;
      sumPower += (volts[p] * i - bridge.machine().rs() * i * i) * dt;
      sumVolt[0] += volts[p] * Math.sin(angle) * dt * 2 / 3;
      sumVolt[1] += volts[p] * Math.cos(angle) * dt * 2 / 3;
    }
    window += dt;
    if (window < 0.5 / plate.frequencyHz()) {
      return;
    }
    double sync = plate.syncRadPerS();
    double x = bridge.speedRadPerS() / sync;
    currentA = starter.currentGain() * Math.sqrt(sumSquare / window);
    torqueEstimate =
        starter.gain() * (1 + starter.slope() * x) * sumPower / window / sync
            + starter.offset() * plate.ratedTorqueNm();
    voltShare =
        Math.hypot(sumVolt[0], sumVolt[1]) / window / (plate.phaseVoltageV() * Math.sqrt(2));
    sumSquare = sumPower = sumVolt[0] = sumVolt[1] = window = 0;
    regulate(t, bridge.speedRadPerS());
  }

  private void regulate(double t, double speed) {
    if (bypass) {
      return;
    }
    double since = t - beginS;
    double pulse = settings.get(Setting.PULSE);
    double move;
    boolean limited = true;
    if (!stopping && since < pulse && settings.get(Setting.PULSE_VOLTAGE) > 0) {
      move = Math.log(settings.get(Setting.PULSE_VOLTAGE) / 100 / Math.max(voltShare, 0.02));
      limited = false;
    } else if (stopping) {
      double share = Math.max(0, 1 - (t - stopBeginS) / settings.get(Setting.RAMP_DOWN));
      double reference = stopTorque * share;
      if (reference < plate.ratedTorqueNm() * settings.get(Setting.RELEASE_TORQUE) / 100) {
        cut(t);
        return;
      }
      move = towards(reference, torqueEstimate);
    } else if (settings.torqueRamp()) {
      double from = settings.get(Setting.INITIAL_TORQUE) / 100;
      double part = Math.min(1, Math.max(0, since - pulse) / settings.get(Setting.RAMP_UP));
      move = towards(plate.ratedTorqueNm() * (from + (1 - from) * part), torqueEstimate);
    } else {
      double from = settings.get(Setting.INITIAL_VOLTAGE) / 100;
      double part = Math.min(1, Math.max(0, since - pulse) / settings.get(Setting.RAMP_UP));
      double wanted = from + (1 - from) * part;
      // a measured fundamental never quite reaches the supply's: with the ramp done, go all the way
      move = part >= 1 ? 0.3 : Math.log(wanted / Math.max(voltShare, 0.02));
    }
    if (limited && currentA > 0) {
      double limit = settings.get(Setting.CURRENT_LIMIT) * starter.enteredCurrentA();
      move = Math.min(move, Math.log(limit / currentA));
    }
    boolean near = !settings.torqueRamp() && !stopping && speed > 0.93 * plate.ratedSpeedRadPerS();
    double gain = near ? GAIN_NEAR_FULL_SPEED : GAIN;
    drive = Math.min(1, Math.max(0.02, drive + gain * Math.max(-0.6, Math.min(0.6, move))));
    boolean full = !stopping && drive >= 0.999 && speed > 0.9 * plate.ratedSpeedRadPerS();
    fullHalfCycles = full ? fullHalfCycles + 1 : 0;
    if (fullHalfCycles > 8) {
      bypass = true;
      bypassS = t;
    }
  }

  private double towards(double reference, double measured) {
    double small = 0.005 * plate.ratedTorqueNm();
    return 0.5 * Math.log(Math.max(small, reference) / Math.max(small, measured));
  }
}
