package rampwright.app.logbook;

import java.time.Instant;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Starts of one asset as they now hold, in order of time, by column: what a trend needs of them and
 * nothing else, since it is asked of all starts of all assets.
 *
 * @param at when each was made
 * @param settings any label that changes when the settings do
 * @param counts whether each is whole and representative
 * @param figures values by figure, NaN where a start lacks it; figures that no start has are left
 *     out; in no order that means anything. Not copied: whoever makes them lets go of them
 */
public record StartColumns(
    List<Instant> at, List<String> settings, List<Boolean> counts, Map<String, double[]> figures) {
  public StartColumns {
    at = List.copyOf(at);
    settings = List.copyOf(settings);
    counts = List.copyOf(counts);
    figures = Collections.unmodifiableMap(new LinkedHashMap<>(figures));
  }

  /** How many starts. */
  public int size() {
    return at.size();
  }
}
