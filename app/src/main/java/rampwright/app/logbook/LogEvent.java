package rampwright.app.logbook;

import java.time.Instant;

/**
 * What a person notes about an asset besides its starts.
 *
 * @param asset id
 * @param at when it happened
 * @param kind what it is
 * @param text of the person
 * @param author who
 * @param loggedAt when it was entered, which may be long after it happened
 */
public record LogEvent(
    String asset, Instant at, Kind kind, String text, String author, Instant loggedAt) {

  /** To be entered. */
  public LogEvent(String asset, Instant at, Kind kind, String text, String author) {
    this(asset, at, kind, text, author, at);
  }

  /** What an event is. */
  public enum Kind {
    /** Work on the machine: begins a new baseline. */
    WORK("work"),
    /** An alert was seen. */
    SEEN("seen"),
    /** The asset belongs to this group from now on. */
    GROUP("group"),
    /** The asset is shown under this name from now on. */
    NAME("name"),
    /** Times of the asset are shown in this zone from now on. */
    ZONE("zone");

    private final String word;

    Kind(String word) {
      this.word = word;
    }

    public String word() {
      return word;
    }
  }
}
