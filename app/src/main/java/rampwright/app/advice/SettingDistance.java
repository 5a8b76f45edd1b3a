package rampwright.app.advice;

import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.StopMode;

/**
 * How much what was seen with some settings says of others: 1 for the same, falling with the square
 * of the distance like a normal curve, 0 between kinds of ramp or of stop. The lengths are those
 * over which a start becomes another one; common practice, no source.
 */
final class SettingDistance {
  private static final double LIMIT = 0.2;
  private static final double TIME = 0.5;
  private static final double TORQUE_PCT = 15;
  private static final double VOLTAGE_PCT = 10;
  private static final double PULSE_PCT = 20;
  private static final double PULSE_S = 0.3;
  private static final double RELEASE_PCT = 10;
  // Ramps shorter than this are alike.
  private static final double SHORT_S = 0.3;

  private SettingDistance() {}

  /** Correlation of what two starts are off by, 0 to 1. */
  static double starts(StarterSettings a, StarterSettings b) {
    if (a.control() != b.control() || a.hasPulse() != b.hasPulse()) {
      return 0;
    }
    double first =
        a.control() == ControlMode.TORQUE_RAMP
            ? (a.initialTorquePct() - b.initialTorquePct()) / TORQUE_PCT
            : (a.initialVoltagePct() - b.initialVoltagePct()) / VOLTAGE_PCT;
    double pulse = a.hasPulse() ? (a.pulseVoltagePct() - b.pulseVoltagePct()) / PULSE_PCT : 0;
    double pulseS = a.hasPulse() ? (a.pulseS() - b.pulseS()) / PULSE_S : 0;
    double limit = Math.log(a.currentLimitRatio() / b.currentLimitRatio()) / LIMIT;
    double ramp = times(a.rampUpS(), b.rampUpS());
    return fall(first * first + pulse * pulse + pulseS * pulseS + limit * limit + ramp * ramp);
  }

  /** Correlation of what two stops are off by, 0 to 1. */
  static double stops(StarterSettings a, StarterSettings b) {
    if (a.stop() != b.stop()) {
      return 0;
    }
    if (a.stop() == StopMode.COAST) {
      return 1;
    }
    double release = (a.releaseTorquePct() - b.releaseTorquePct()) / RELEASE_PCT;
    double ramp = times(a.rampDownS(), b.rampDownS());
    return fall(release * release + ramp * ramp);
  }

  /** How far apart two starts are for a search: 0 the same, 1 another kind of ramp. */
  static double apart(StarterSettings a, StarterSettings b) {
    double modes = a.control() == b.control() ? 0 : 1;
    double first =
        a.control() == ControlMode.TORQUE_RAMP
            ? (a.initialTorquePct() - b.initialTorquePct()) / 30
            : (a.initialVoltagePct() - b.initialVoltagePct()) / 20;
    return modes
        + Math.abs(Math.log(a.currentLimitRatio() / b.currentLimitRatio()))
        + 0.4 * Math.abs(Math.log(Math.max(0.2, a.rampUpS()) / Math.max(0.2, b.rampUpS())))
        + 0.5 * Math.abs(first)
        + (a.hasPulse() == b.hasPulse() ? 0 : 0.3);
  }

  private static double times(double a, double b) {
    return Math.log(Math.max(SHORT_S, a) / Math.max(SHORT_S, b)) / TIME;
  }

  private static double fall(double square) {
    return Math.exp(-0.5 * square);
  }
}
