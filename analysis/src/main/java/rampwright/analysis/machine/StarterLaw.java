package rampwright.analysis.machine;

/**
 * How a starter's own measurements differ from the truth.
 *
 * @param torqueGain torque the starter believes it makes, over the torque it makes
 * @param torqueOffset added to that, per unit of rated torque
 * @param lossTorque torque, per unit, that the starter takes off for every squared per unit of
 *     current: what it allows for stator loss beyond the true loss
 * @param torqueSlope how much more it believes at synchronous speed than at standstill, as a share
 *     of the torque: a loss or an angle that is allowed for at one speed is not right at another
 * @param voltageBend how a voltage that is asked for, a share k of full, differs from what comes: k
 *     + bend k (1 - k); right at nothing and at full, as a firing angle's table is
 * @param limitGain RMS current held at the limit over the limit that is set
 * @param harmonicShare squared harmonic current over squared fundamental current in a pole of the
 *     starter when the fundamental voltage is near zero; towards full voltage k = 1 it shrinks as 1
 *     - k^2 in line, as (1 - k)^2.5 inside a delta ({@link Wiring#poleFactor})
 * @param gapShare share of the voltage lost to the gaps in the current at unity power factor, see
 *     {@link #fullRatio}
 * @param wiring where the starter sits in the circuit
 */
public record StarterLaw(
    double torqueGain,
    double torqueOffset,
    double lossTorque,
    double torqueSlope,
    double voltageBend,
    double limitGain,
    double harmonicShare,
    double gapShare,
    Wiring wiring) {

  /** A starter without error, in line. */
  public static final StarterLaw EXACT = new StarterLaw(1, 0, 0, 0, 0, 1, 0, 0, Wiring.IN_LINE);

  /** Torque the starter believes it makes over the torque it makes, but for offset and loss. */
  public double torqueGainAt(double speedPu) {
    return torqueGain * (1 + torqueSlope * speedPu);
  }

  /** Voltage ratio that comes when a ratio is asked for. */
  public double ratioFor(double asked) {
    return asked + voltageBend * asked * (1 - asked);
  }

  /**
   * Fundamental motor voltage over line-side voltage with the voltage set to full but not
   * by-passed: 1 - d cos^4(phi), d = gapShare. An inductive current flows on into the gap and fills
   * it; a running motor's current, nearer in phase, does not, so that by-passing gives a step. An
   * approximation to the phase-control characteristic; common practice, no source.
   */
  public double fullRatio(double powerFactor) {
    double square = powerFactor * powerFactor;
    return 1.0 - gapShare * square * square;
  }

  /** RMS over fundamental of the current that is measured, at a voltage ratio k. */
  public double measuredFactor(double k) {
    return wiring.measuredFactor(k, harmonicShare);
  }

  /** RMS over fundamental of the current in a pole of the starter, which its limit acts on. */
  public double poleFactor(double k) {
    return wiring.poleFactor(k, harmonicShare);
  }
}
