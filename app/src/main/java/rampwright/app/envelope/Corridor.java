package rampwright.app.envelope;

/**
 * A band a channel must stay in.
 *
 * @param channel what is watched
 * @param part time counts from current inception (start) or from the stop's begin (stop)
 * @param upper what the channel must not exceed; may be empty
 * @param lower what the channel must not fall below; may be empty
 */
public record Corridor(Channel channel, FigureKey.Part part, Polyline upper, Polyline lower) {
  /** What a corridor can watch. */
  public enum Channel {
    /** Highest phase current over the motor's rated current. */
    CURRENT_RATIO("current_ratio"),
    /** Speed in percent of the nameplate's rated speed. */
    SPEED_PCT("speed_pct");

    private final String key;

    Channel(String key) {
      this.key = key;
    }

    /** Word used in files. */
    public String key() {
      return key;
    }
  }

  public Corridor {
    if (upper.isEmpty() && lower.isEmpty()) {
      throw new IllegalArgumentException("a corridor has an upper or a lower bound, or both");
    }
  }

  /** Time the corridor begins, s from its origin. */
  public double fromS() {
    return upper.isEmpty()
        ? lower.fromS()
        : lower.isEmpty() ? upper.fromS() : Math.min(upper.fromS(), lower.fromS());
  }

  /** Time the corridor ends, s from its origin. */
  public double toS() {
    return upper.isEmpty()
        ? lower.toS()
        : lower.isEmpty() ? upper.toS() : Math.max(upper.toS(), lower.toS());
  }
}
