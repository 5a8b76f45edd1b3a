package rampwright.app.trend;

import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.OptionalDouble;

/**
 * What a trend is asked about.
 *
 * @param figure key of the figure
 * @param starts in order of time
 * @param events of maintenance: each begins a new baseline
 * @param upper limit of the envelope
 * @param lower limit of the envelope
 * @param zone in which days are said in words
 */
public record TrendQuestion(
    String figure,
    List<LoggedStart> starts,
    List<Instant> events,
    OptionalDouble upper,
    OptionalDouble lower,
    ZoneId zone) {

  /** With days said in UTC. */
  public TrendQuestion(
      String figure,
      List<LoggedStart> starts,
      List<Instant> events,
      OptionalDouble upper,
      OptionalDouble lower) {
    this(figure, starts, events, upper, lower, ZoneOffset.UTC);
  }

  public TrendQuestion {
    starts = FigureStarts.of(starts);
    events = List.copyOf(events);
  }
}
