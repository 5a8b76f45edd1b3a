package rampwright.analysis.heat;

/**
 * A number that is known only within limits.
 *
 * @param low smallest value it may have
 * @param stated what is given, or usual where nothing is
 * @param high largest value it may have
 */
public record Spread(double low, double stated, double high) {
  public Spread {
    if (!(low > 0 && low <= stated && stated <= high)) {
      throw new IllegalArgumentException(
          "spread: " + low + ", " + stated + ", " + high + " must be above 0 and in this order");
    }
  }

  /** A stated number good to a share of itself either way. */
  static Spread within(double stated, double share) {
    return new Spread(stated * (1 - share), stated, stated * (1 + share));
  }
}
