package rampwright.analysis.figure;

import org.jspecify.annotations.Nullable;

/**
 * Beyond what a value is absurd. All three must be exceeded: a wrong nameplate alone, or a short
 * inrush alone, must not cost readings.
 *
 * @param limit what the nameplate allows at the very most; 0 where it says nothing
 * @param overOthers times the next smaller value of the channel: a code for "no reading" stands
 *     alone
 * @param overSustained times the largest value that lasts for three of five readings: a lone value
 */
record Plausible(double limit, double overOthers, double overSustained) {
  // A direct start takes up to eight times rated current (common practice, no source) and its first
  // half wave a little more as an RMS.
  private static final double CURRENT_RATIO = 10;
  private static final double SPEED_RATIO = 1.5;
  private static final double VOLTAGE_RATIO = 2;
  // At this rate an inrush lasts for more than a reading or two.
  private static final double FAST_HZ = 5;

  static Plausible current(@Nullable Double ratedA, double rateHz) {
    return ratedA != null && ratedA > 0
        ? new Plausible(CURRENT_RATIO * ratedA, 5, 3)
        : new Plausible(0, 30, rateHz >= FAST_HZ ? 10 : 30);
  }

  static Plausible voltage(@Nullable Double declaredV) {
    return declaredV != null && declaredV > 0
        ? new Plausible(VOLTAGE_RATIO * declaredV, 2, 1.5)
        : new Plausible(0, 5, 3);
  }

  static Plausible speed(@Nullable Double ratedRpm) {
    return ratedRpm != null && ratedRpm > 0
        ? new Plausible(SPEED_RATIO * ratedRpm, 1.5, 1.3)
        : new Plausible(0, 3, 2);
  }
}
