package rampwright.app.trend;

import java.time.Instant;
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
 */
public record TrendQuestion(
    String figure,
    List<LoggedStart> starts,
    List<Instant> events,
    OptionalDouble upper,
    OptionalDouble lower) {

  public TrendQuestion {
    starts = List.copyOf(starts);
    events = List.copyOf(events);
  }
}
