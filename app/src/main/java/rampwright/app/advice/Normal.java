package rampwright.app.advice;

import org.hipparchus.special.Erf;

/** The normal distribution as a search needs it. */
final class Normal {
  /** Chance of what cannot be. */
  static final double LEAST = 1e-6;

  private Normal() {}

  /** Distribution function, with tails that never vanish, for a search to climb on. */
  static double below(double z) {
    if (z < -4) {
      return 3e-5 / (1 + (z + 4) * (z + 4));
    }
    return z > 6 ? 1 : 0.5 * Erf.erfc(-z / Math.sqrt(2));
  }
}
