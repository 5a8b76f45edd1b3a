package rampwright.analysis.machine;

import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * What a motor's plate and data sheet say. The last four may be missing.
 *
 * @param ratedPowerW shaft power, W
 * @param ratedVoltageV line to line, V RMS
 * @param ratedCurrentA line current, A RMS
 * @param ratedFrequencyHz supply frequency, Hz
 * @param ratedSpeedRpm speed at rated load, 1/min
 * @param powerFactor at rated load, (0, 1]
 * @param efficiency at rated load, (0, 1]
 * @param lockedRotorCurrentRatio locked-rotor current over rated current at rated voltage
 * @param lockedRotorTorqueRatio locked-rotor torque over rated torque at rated voltage
 * @param breakdownTorqueRatio breakdown torque over rated torque at rated voltage
 * @param inertiaKgM2 rotor inertia, kg m2
 */
public record Nameplate(
    double ratedPowerW,
    double ratedVoltageV,
    double ratedCurrentA,
    double ratedFrequencyHz,
    double ratedSpeedRpm,
    double powerFactor,
    double efficiency,
    @Nullable Double lockedRotorCurrentRatio,
    @Nullable Double lockedRotorTorqueRatio,
    @Nullable Double breakdownTorqueRatio,
    @Nullable Double inertiaKgM2) {

  private static final double LARGEST_RATED_SLIP = 0.2;

  public Nameplate {
    within("rated power, W", ratedPowerW, 10.0, 1e8);
    within("rated voltage, V", ratedVoltageV, 20.0, 30e3);
    within("rated current, A", ratedCurrentA, 0.01, 1e5);
    within("rated frequency, Hz", ratedFrequencyHz, 10.0, 400.0);
    within("rated speed, 1/min", ratedSpeedRpm, 10.0, 24e3);
    within("power factor", powerFactor, 0.2, 1.0);
    within("efficiency", efficiency, 0.3, 1.0);
    within("locked-rotor current ratio", lockedRotorCurrentRatio, 1.2, 15.0);
    within("locked-rotor torque ratio", lockedRotorTorqueRatio, 0.1, 6.0);
    within("breakdown torque ratio", breakdownTorqueRatio, 1.05, 8.0);
    within("motor inertia, kg m2", inertiaKgM2, 1e-6, 1e6);
    double slip = slip(ratedFrequencyHz, ratedSpeedRpm);
    if (!(slip > 0 && slip <= LARGEST_RATED_SLIP)) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT,
              "motor plate: rated slip %.4f is outside (0, %.1f]; %.0f 1/min does not belong to any"
                  + " pole number at %.0f Hz; check rated speed and frequency",
              slip,
              LARGEST_RATED_SLIP,
              ratedSpeedRpm,
              ratedFrequencyHz));
    }
  }

  private static void within(String what, @Nullable Double value, double low, double high) {
    if (value != null && !(value >= low && value <= high)) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT,
              "motor plate: %s of %s is outside %s to %s; check its unit",
              what,
              value,
              low,
              high));
    }
  }

  private static int polePairs(double frequencyHz, double speedRpm) {
    return Math.max(1, (int) Math.floor(60.0 * frequencyHz / speedRpm));
  }

  private static double slip(double frequencyHz, double speedRpm) {
    return 1.0 - speedRpm * polePairs(frequencyHz, speedRpm) / (60.0 * frequencyHz);
  }

  /** Number of pole pairs: the largest whose synchronous speed is above rated speed. */
  public int polePairs() {
    return polePairs(ratedFrequencyHz, ratedSpeedRpm);
  }

  /** Slip at rated load, of synchronous speed. */
  public double ratedSlip() {
    return slip(ratedFrequencyHz, ratedSpeedRpm);
  }

  /** Synchronous speed, 1/min: 60 f / p. */
  public double syncSpeedRpm() {
    return 60.0 * ratedFrequencyHz / polePairs();
  }

  /** Synchronous speed, rad/s: 2 pi f / p. */
  public double syncSpeedRadPerS() {
    return 2.0 * Math.PI * ratedFrequencyHz / polePairs();
  }

  /** Rated shaft torque, N m: rated power over rated angular speed. */
  public double ratedTorqueNm() {
    return ratedPowerW / (syncSpeedRadPerS() * (1.0 - ratedSlip()));
  }

  /** Rated apparent power, VA: sqrt 3 times rated voltage and current. */
  public double ratedApparentPowerVa() {
    return Math.sqrt(3.0) * ratedVoltageV * ratedCurrentA;
  }

  /**
   * Base impedance, ohm per phase of the star equivalent: rated voltage / (sqrt 3 rated current).
   */
  public double baseImpedanceOhm() {
    return ratedVoltageV / (Math.sqrt(3.0) * ratedCurrentA);
  }

  /**
   * Shaft torque in per unit of rated torque for an air-gap power of one per unit.
   *
   * <p>Formula: (S / ws) / T = S (1 - s) / P. Symbols: S rated apparent power, ws synchronous
   * speed, T rated torque, s rated slip, P rated power.
   */
  public double torquePerAirGapPower() {
    return ratedApparentPowerVa() * (1.0 - ratedSlip()) / ratedPowerW;
  }
}
