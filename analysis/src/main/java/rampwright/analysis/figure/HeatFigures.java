package rampwright.analysis.figure;

import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.quantity.Measured;

/**
 * Share of the motor's allowed heat that a start used, and the energy that went into the masses.
 */
final class HeatFigures {
  // Rotor bars show a negative-sequence current about three times the resistance they show a
  // positive one near standstill to full speed (skin effect at twice supply frequency).
  // Common practice, no source.
  private static final double NEGATIVE_SEQUENCE_WEIGHT = 3;

  // IEC 60034-1 allows a motor's moment of inertia 10 % either way (from memory); the driven
  // machine's
  // is seldom known better.
  private static final double INERTIA = 0.10;

  private HeatFigures() {}

  /**
   * Heat share against a locked-rotor time.
   *
   * <p>Formula: i2t of the worst phase x (1 + 3 (I2/I1)^2) / (t_lr (k In)^2), percent. Adiabatic:
   * beyond about 30 s it overstates.
   *
   * @param negativeShare I2/I1, 0 where it cannot be told
   */
  static Measured share(
      Measured i2t, MotorContext motor, @Nullable Double lockedTimeS, double negativeShare) {
    Double rated = motor.ratedCurrentA();
    Double ratio = motor.lockedRotorCurrentRatio();
    if (!i2t.isPresent()) {
      return Measured.missing("%", String.valueOf(i2t.why()));
    }
    if (rated == null || ratio == null || lockedTimeS == null) {
      return Measured.missing(
          "%",
          lockedTimeS == null
              ? "needs the motor's locked-rotor time"
              : "needs the motor's rated and locked-rotor current");
    }
    String worst = "";
    double most = 0;
    for (Map.Entry<String, Double> phase : i2t.phases().entrySet()) {
      if (phase.getValue() > most) {
        most = phase.getValue();
        worst = phase.getKey();
      }
    }
    double allowed = lockedTimeS * ratio * ratio * rated * rated;
    double weight = 1 + NEGATIVE_SEQUENCE_WEIGHT * negativeShare * negativeShare;
    double value = 100 * most * weight / allowed;
    Double u = i2t.uncertainty();
    Double mean = i2t.value();
    Double fromS = i2t.fromS();
    Double toS = i2t.toS();
    if (mean == null || fromS == null || toS == null) {
      return Measured.missing("%", "no i2t");
    }
    return Measured.of(
            value,
            "%",
            u == null ? null : value * u / mean,
            fromS,
            toS,
            "i2t of the worst phase with its negative-sequence share / (locked-rotor time x"
                + " locked-rotor current squared); adiabatic, overstates beyond about 30 s")
        .withPhases(worst, Map.of());
  }

  /** 0.5 J w^2 at the settled speed. */
  static Measured accelerationEnergy(MotorContext motor, RunLevel level) {
    Double inertia = motor.totalInertiaKgM2();
    if (inertia == null) {
      return Measured.missing("J", "needs the inertia of motor and load");
    }
    Double rated = motor.ratedSpeedRpm();
    boolean measured = !Double.isNaN(level.speedRpm());
    if (!level.currentA().isPresent() && !measured) {
      return Measured.missing("J", "no run was reached");
    }
    if (!measured && rated == null) {
      return Measured.missing("J", "needs the settled run speed, or the rated speed");
    }
    double rpm = measured || rated == null ? level.speedRpm() : rated;
    double w = rpm * 2 * Math.PI / 60;
    return Measured.of(
        0.5 * inertia * w * w,
        "J",
        INERTIA * 0.5 * inertia * w * w,
        level.fromS(),
        level.toS(),
        (measured ? "0.5 J w²" : "0.5 J w² at rated speed, for want of a speed channel")
            + "; the inertia is the asset sheet's, taken to be good to 10 %");
  }
}
