package rampwright.exam.wave;

/**
 * A three-phase supply, in the equivalent star.
 *
 * @param lineVoltageV line to line, RMS, without load
 * @param resistanceOhm per phase, with {@code inductanceH}
 * @param angleRad of the voltage of phase 1 (a sine) at time 0
 * @param dipFromS begin of a dip common to the phases; NaN: none
 * @param dipForS how long it lasts
 * @param dipTo voltage left, share
 */
public record WaveSupply(
    double lineVoltageV,
    double frequencyHz,
    double resistanceOhm,
    double inductanceH,
    double angleRad,
    double dipFromS,
    double dipForS,
    double dipTo) {

  public static WaveSupply steady(
      double lineVoltageV, double frequencyHz, double resistanceOhm, double inductanceH) {
    return new WaveSupply(
        lineVoltageV, frequencyHz, resistanceOhm, inductanceH, 0, Double.NaN, 0, 1);
  }

  /** The same, with phase 1 at a given angle at time 0. */
  public WaveSupply from(double angleRad) {
    return new WaveSupply(
        lineVoltageV, frequencyHz, resistanceOhm, inductanceH, angleRad, dipFromS, dipForS, dipTo);
  }

  /** The same with a dip. */
  public WaveSupply dip(double fromS, double forS, double to) {
    return new WaveSupply(
        lineVoltageV, frequencyHz, resistanceOhm, inductanceH, angleRad, fromS, forS, to);
  }

  /** Angle of a phase (0, 1, 2), rad, not wrapped. */
  public double angle(int phase, double t) {
    return 2 * Math.PI * frequencyHz * t + angleRad - phase * 2 * Math.PI / 3;
  }

  double amplitude(double t) {
    double full = lineVoltageV * Math.sqrt(2.0 / 3);
    return t >= dipFromS && t < dipFromS + dipForS ? full * dipTo : full;
  }
}
