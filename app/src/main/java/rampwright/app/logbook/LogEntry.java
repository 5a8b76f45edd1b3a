package rampwright.app.logbook;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Collections;
import java.util.Map;
import java.util.TreeMap;

/**
 * What is said of one start.
 *
 * @param asset id of the motor circuit
 * @param at when the start was made; kept to the millisecond
 * @param settings any label that changes when the settings do
 * @param outcome of the start, empty where it is not known
 * @param counts false for a start that is kept and shown but not representative
 * @param reason why it does not count
 * @param note of a person
 * @param author who noted it
 * @param origin where it came from
 * @param figures by key
 */
public record LogEntry(
    String asset,
    Instant at,
    String settings,
    String outcome,
    boolean counts,
    String reason,
    String note,
    String author,
    Origin origin,
    Map<String, LoggedFigure> figures) {
  private static final Instant FIRST = Instant.parse("1900-01-01T00:00:00Z");
  private static final Instant LAST = Instant.parse("2999-12-31T23:59:59Z");

  /**
   * An entry.
   *
   * @throws IllegalArgumentException for a time no recorder has seen
   */
  public LogEntry {
    if (at.isBefore(FIRST) || at.isAfter(LAST)) {
      throw new IllegalArgumentException(
          "the start is dated " + at + "; a start is between 1900 and 2999, set the time right");
    }
    asset = Words.kept(asset);
    at = at.truncatedTo(ChronoUnit.MILLIS);
    settings = Words.kept(settings);
    outcome = Words.kept(outcome);
    reason = Words.kept(reason);
    note = Words.kept(note);
    author = Words.kept(author);
    figures = Collections.unmodifiableMap(new TreeMap<>(figures));
  }

  /** Value of a figure; NaN where the start lacks it. */
  public double value(String figure) {
    LoggedFigure found = figures.get(figure);
    return found == null ? Double.NaN : found.value();
  }

  /** The same said with other figures and another origin. */
  LogEntry with(Origin newOrigin, Map<String, LoggedFigure> newFigures) {
    return new LogEntry(
        asset, at, settings, outcome, counts, reason, note, author, newOrigin, newFigures);
  }

  /**
   * Whether a row of a table says nothing that another entry does not say: the same words and, of
   * the figures it has, the same values.
   */
  boolean saysNoMoreThan(LogEntry other) {
    if (origin.hasTrace()
        || !asset.equals(other.asset)
        || !at.equals(other.at)
        || !settings.equals(other.settings)
        || !outcome.equals(other.outcome)
        || counts != other.counts
        || !reason.equals(other.reason)
        || !note.equals(other.note)
        || !author.equals(other.author)) {
      return false;
    }
    return figures.entrySet().stream()
        .filter(figure -> Double.isFinite(figure.getValue().value()))
        .allMatch(figure -> figure.getValue().value() == other.value(figure.getKey()));
  }
}
