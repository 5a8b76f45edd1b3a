package rampwright.app.trend;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/**
 * The starts since settings last changed or the machine was worked on: only these are compared.
 *
 * @param starts that count and carry the figure
 * @param left starts of the epoch that do not count or lack the figure
 * @param earlier starts of the asset before it
 * @param before those of them that count and carry the figure
 */
record Epoch(List<LoggedStart> starts, int left, int earlier, List<LoggedStart> before) {

  static Epoch last(List<LoggedStart> all, List<Instant> events) {
    int first = 0;
    for (int i = 1; i < all.size(); i++) {
      boolean worked = !events.isEmpty() && isWithin(events, all.get(i - 1).at(), all.get(i).at());
      if (worked || !all.get(i).settings().equals(all.get(i - 1).settings())) {
        first = i;
      }
    }
    List<LoggedStart> used = whole(all.subList(first, all.size()));
    return new Epoch(used, all.size() - first - used.size(), first, whole(all.subList(0, first)));
  }

  private static boolean isWithin(List<Instant> events, Instant before, Instant here) {
    return events.stream().anyMatch(at -> at.isAfter(before) && !at.isAfter(here));
  }

  private static List<LoggedStart> whole(List<LoggedStart> starts) {
    List<LoggedStart> whole = new ArrayList<>(starts.size());
    for (LoggedStart start : starts) {
      if (start.counts() && Double.isFinite(start.value())) {
        whole.add(start);
      }
    }
    return whole;
  }
}
