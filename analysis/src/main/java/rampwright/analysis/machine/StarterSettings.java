package rampwright.analysis.machine;

import java.util.Locale;

/**
 * What is set on a starter for a start and the stop after it, as in a settings file.
 *
 * @param currentLimitRatio RMS current limit over motor rated current; acts on both kinds of ramp
 * @param control what is ramped
 * @param rampUpS time from initial torque (voltage) to rated torque (full voltage), s
 * @param initialTorquePct torque ramp: first reference, % of rated torque
 * @param initialVoltagePct voltage ramp: first voltage, % of supply voltage
 * @param pulseVoltagePct breakaway pulse before the ramp, % of supply voltage; not limited
 * @param pulseS length of the pulse, s; 0 = none
 * @param stop soft or coast
 * @param releaseTorquePct a soft stop lets go when its falling reference is below this, % of rated
 *     torque
 * @param rampDownS soft stop: time from the torque at the stop order to zero, s
 */
public record StarterSettings(
    double currentLimitRatio,
    ControlMode control,
    double rampUpS,
    double initialTorquePct,
    double initialVoltagePct,
    double pulseVoltagePct,
    double pulseS,
    StopMode stop,
    double releaseTorquePct,
    double rampDownS) {

  public StarterSettings {
    range("current limit ratio", currentLimitRatio, 0.1, 20);
    range("ramp-up time, s", rampUpS, 0, 600);
    range("initial torque, %", initialTorquePct, 0, 200);
    range("initial voltage, %", initialVoltagePct, 0, 100);
    range("pulse voltage, %", pulseVoltagePct, 0, 100);
    range("pulse time, s", pulseS, 0, 10);
    range("release torque, %", releaseTorquePct, 0, 200);
    range("ramp-down time, s", rampDownS, 0, 600);
  }

  private static void range(String what, double value, double low, double high) {
    if (!(value >= low && value <= high)) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT, "settings: %s is %s; allowed are %s to %s", what, value, low, high));
    }
  }

  /** Whether there is a breakaway pulse. */
  public boolean hasPulse() {
    return pulseS > 0 && pulseVoltagePct > 0;
  }
}
