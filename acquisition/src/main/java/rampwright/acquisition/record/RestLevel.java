package rampwright.acquisition.record;

/**
 * Above which a reading counts as flowing or turning: a share of the rated value or six times the
 * noise at rest above the rest value, whichever is larger; learned while waiting.
 *
 * <p>Formula: level = max(share x rated, min(mean + 6 s, 0.3 x rated)), mean and standard deviation
 * s as exponential averages over about {@value #MEMORY} readings at rest. The rule is that of the
 * figures (5 % of rated current, six times the noise); the cap keeps a creeping signal from raising
 * its own threshold for ever.
 */
final class RestLevel {
  static final int MEMORY = 50;
  private static final double NOISE_TIMES = 6;
  private static final double MOST_OF_RATED = 0.3;

  private final double floor;
  private final double most;
  private double mean;
  private double variance;
  private int seen;

  RestLevel(double rated, double share) {
    this.floor = share * rated;
    this.most = MOST_OF_RATED * rated;
  }

  double level() {
    double noise = mean + NOISE_TIMES * Math.sqrt(variance);
    return seen < 3 ? floor : Math.max(floor, Math.min(noise, most));
  }

  /** Whether a reading is above; those below are learned from. */
  boolean isAbove(double value) {
    double size = Math.abs(value);
    if (size > level()) {
      return true;
    }
    seen++;
    double weight = Math.max(1.0 / seen, 1.0 / MEMORY);
    double off = size - mean;
    mean += weight * off;
    variance = (1 - weight) * (variance + weight * off * off);
    return false;
  }
}
