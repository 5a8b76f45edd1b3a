package rampwright.analysis.machine;

import java.util.ArrayList;
import java.util.List;

/**
 * A nameplate with its gaps filled from typical values, and how far each number may be off.
 *
 * <p>Typical values are common practice for squirrel-cage motors of 5 to 1000 kW by rating and pole
 * number (no single source; the trend of torques with rating and poles follows the table of IEC
 * 60034-12 design N, whose entries are minima and are exceeded by most makes by about a half).
 * Inertia follows the power law of the rating and pole pairs that IEC 60034-12 uses for the
 * permitted load inertia, J = 0.04 P^0.9 p^2.5 (P in kW), of which a rotor is about a quarter for
 * two poles and a twelfth above (least squares over motor data in common use, from memory).
 *
 * @param currentRatio locked-rotor current over rated
 * @param torqueRatio locked-rotor torque over rated
 * @param breakdownRatio breakdown torque over rated
 * @param inertiaKgM2 rotor inertia, kg m2
 * @param currentSigma standard deviation of the natural logarithm of {@code currentRatio}; likewise
 *     the next three
 * @param torqueSigma of {@code torqueRatio}
 * @param breakdownSigma of {@code breakdownRatio}
 * @param inertiaSigma of {@code inertiaKgM2}
 * @param estimated names of the numbers the plate did not give
 */
public record TypicalMotor(
    double currentRatio,
    double torqueRatio,
    double breakdownRatio,
    double inertiaKgM2,
    double currentSigma,
    double torqueSigma,
    double breakdownSigma,
    double inertiaSigma,
    List<String> estimated) {

  // Plates are rounded to a digit and tolerances of IEC 60034-1 are +20 % on locked-rotor current,
  // -15/+25 % on its torque, -10 % on breakdown; makes stay well inside. At the reduced currents of
  // a
  // limited start, leakage is less saturated than at full voltage, hence a little more.
  private static final double PLATE_CURRENT_SIGMA = 0.07;
  private static final double PLATE_TORQUE_SIGMA = 0.10;
  private static final double PLATE_BREAKDOWN_SIGMA = 0.08;
  private static final double PLATE_INERTIA_SIGMA = 0.06;
  private static final double GUESS_CURRENT_SIGMA = 0.16;
  private static final double GUESS_TORQUE_SIGMA = 0.28;
  private static final double GUESS_BREAKDOWN_SIGMA = 0.18;
  private static final double GUESS_INERTIA_SIGMA = 0.30;

  public TypicalMotor {
    estimated = List.copyOf(estimated);
  }

  /** Fills the gaps of a nameplate. */
  public static TypicalMotor of(Nameplate plate) {
    double kW = plate.ratedPowerW() / 1000.0;
    int pairs = plate.polePairs();
    List<String> estimated = new ArrayList<>();
    Double current = plate.lockedRotorCurrentRatio();
    Double torque = plate.lockedRotorTorqueRatio();
    Double breakdown = plate.breakdownTorqueRatio();
    Double inertia = plate.inertiaKgM2();
    if (current == null) {
      estimated.add("locked_rotor_current_ratio");
    }
    if (torque == null) {
      estimated.add("locked_rotor_torque_ratio");
    }
    if (breakdown == null) {
      estimated.add("breakdown_torque_ratio");
    }
    if (inertia == null) {
      estimated.add("inertia_kgm2");
    }
    return new TypicalMotor(
        current != null ? current : 6.7 - 0.3 * (pairs - 1),
        torque != null
            ? torque
            : Math.max(0.8, 2.3 - 0.19 * Math.log(Math.max(1, kW)) - 0.06 * pairs),
        breakdown != null ? breakdown : 2.75 - 0.05 * pairs,
        inertia != null ? inertia : typicalInertia(kW, pairs),
        current != null ? PLATE_CURRENT_SIGMA : GUESS_CURRENT_SIGMA,
        torque != null ? PLATE_TORQUE_SIGMA : GUESS_TORQUE_SIGMA,
        breakdown != null ? PLATE_BREAKDOWN_SIGMA : GUESS_BREAKDOWN_SIGMA,
        inertia != null ? PLATE_INERTIA_SIGMA : GUESS_INERTIA_SIGMA,
        estimated);
  }

  private static double typicalInertia(double kW, int pairs) {
    return 0.04 * Math.pow(kW, 0.9) * Math.pow(pairs, 2.5) / (pairs == 1 ? 4.0 : 12.0);
  }
}
