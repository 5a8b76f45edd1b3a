package rampwright.analysis.machine;

import java.util.Locale;

/**
 * Load torque against speed: a breakaway peak that fades, a minimum, and a power of speed.
 *
 * <p>Formula: T(n) = m + (f - m) n^e + (b - m) exp(-n / w) for n &gt; 0; at rest the load holds up
 * to b. Symbols: f torque at synchronous speed (fullTorque), m minimum (minimumTorque), b breakaway
 * (breakawayTorque), all per unit of motor rated torque; e exponent; w width of the breakaway peak,
 * per unit of synchronous speed; n speed likewise.
 *
 * <p>Quadratic (pump, fan): e near 2. Linear: near 1. Constant (conveyor, hoist, with stiction): m
 * near f. Reciprocating: m a large part of f; the pulsation over a turn is averaged out. A
 * breakaway below the minimum is taken as the minimum.
 *
 * <p>Source: square law from the affinity laws; breakaway 15 to 20 % falling to 5 to 10 % near 15 %
 * speed is common practice for pumps.
 */
public record LoadCurve(
    double fullTorque,
    double minimumTorque,
    double breakawayTorque,
    double exponent,
    double breakawayWidth) {

  public LoadCurve {
    if (!(fullTorque >= 0
        && minimumTorque >= 0
        && breakawayTorque >= 0
        && exponent > 0
        && breakawayWidth > 0)) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT,
              "load: full torque %s, minimum %s and breakaway %s may not be negative; exponent %s and"
                  + " width %s must be above zero",
              fullTorque,
              minimumTorque,
              breakawayTorque,
              exponent,
              breakawayWidth));
    }
  }

  /** Torque the load can hold at rest, per unit of motor rated torque. */
  public double holding() {
    return Math.max(breakawayTorque, minimumTorque);
  }

  /** The part that grows with speed: (f - m) n^e. */
  public double growing(double speedPu) {
    if (speedPu <= 0) {
      return 0;
    }
    double power = exponent == 2.0 ? speedPu * speedPu : Math.pow(speedPu, exponent);
    return (fullTorque - minimumTorque) * power;
  }

  /** The part that rubs: minimum and fading breakaway peak. */
  public double rubbing(double speedPu) {
    double excess = breakawayTorque - minimumTorque;
    if (excess <= 0 || speedPu > 12 * breakawayWidth) {
      return minimumTorque;
    }
    return minimumTorque + excess * Math.exp(-Math.max(0, speedPu) / breakawayWidth);
  }

  /** Torque while turning at a speed, per unit of motor rated torque. */
  public double at(double speedPu) {
    return rubbing(speedPu) + growing(speedPu);
  }
}
