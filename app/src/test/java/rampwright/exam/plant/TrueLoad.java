package rampwright.exam.plant;

/**
 * The driven machine as it really is: torque against speed, and how it resists the first movement.
 *
 * <p>Formula: T(x) = full (floor + (1 - floor) x^exponent) + (stick - full floor) exp(-x / fade),
 * times 1 + ripple sin(ripples angle), with x = speed / full speed. At rest the shaft holds until
 * the motor gives more than {@code stick}.
 *
 * @param fullTorqueNm torque at {@code fullSpeedRadPerS}
 * @param floor share of it that does not depend on speed
 * @param stickNm torque needed to break away
 * @param fade share of full speed over which the extra of breaking away is lost
 * @param ripple relative amplitude of the torque over a turn; {@code ripples} waves a turn
 */
public record TrueLoad(
    String kind,
    double fullTorqueNm,
    double fullSpeedRadPerS,
    double floor,
    double exponent,
    double stickNm,
    double fade,
    double ripple,
    int ripples,
    double inertiaKgM2) {

  /** Torque while turning, at a speed and an angle of the shaft. */
  public double torqueNm(double speedRadPerS, double angleRad) {
    double x = Math.max(0, speedRadPerS / fullSpeedRadPerS);
    double smooth =
        fullTorqueNm * (floor + (1 - floor) * (x == 0 ? 0 : Math.pow(x, exponent)))
            + (x < 12 * fade ? (stickNm - fullTorqueNm * floor) * Math.exp(-x / fade) : 0);
    return ripple == 0 ? smooth : smooth * (1 + ripple * Math.sin(ripples * angleRad));
  }

  /** The same load on another day. */
  public TrueLoad scattered(double torqueFactor, double stickFactor) {
    return new TrueLoad(
        kind,
        fullTorqueNm * torqueFactor,
        fullSpeedRadPerS,
        floor,
        exponent,
        stickNm * stickFactor,
        fade,
        ripple,
        ripples,
        inertiaKgM2);
  }
}
