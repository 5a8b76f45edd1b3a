package rampwright.app.trend;

import java.time.Instant;

/**
 * Something that begins a new baseline, or that a person noted, as a chart shows it.
 *
 * @param at when
 * @param kind what it is
 * @param text in words
 * @param author who noted it; empty for settings, which the starts themselves show
 * @param knownAt since when it is known
 */
public record Mark(Instant at, Kind kind, String text, String author, Instant knownAt) {

  /** Known as it happened. */
  public Mark(Instant at, Kind kind, String text, String author) {
    this(at, kind, text, author, at);
  }

  /** Whether nothing was known of it before an instant. */
  public boolean isNewSince(Instant then) {
    return !knownAt.isBefore(then) || at.isAfter(then);
  }

  /** What a mark is. */
  public enum Kind {
    SETTINGS("settings"),
    WORK("work");

    private final String word;

    Kind(String word) {
      this.word = word;
    }

    public String word() {
      return word;
    }
  }
}
