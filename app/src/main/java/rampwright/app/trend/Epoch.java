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
 */
record Epoch(List<LoggedStart> starts, int left, int earlier) {

  static Epoch last(List<LoggedStart> all, List<Instant> events) {
    int first = 0;
    for (int i = 1; i < all.size(); i++) {
      Instant before = all.get(i - 1).at();
      Instant here = all.get(i).at();
      boolean worked = events.stream().anyMatch(at -> at.isAfter(before) && !at.isAfter(here));
      if (worked || !all.get(i).settings().equals(all.get(i - 1).settings())) {
        first = i;
      }
    }
    List<LoggedStart> used = new ArrayList<>();
    for (LoggedStart start : all.subList(first, all.size())) {
      if (start.counts() && Double.isFinite(start.value())) {
        used.add(start);
      }
    }
    return new Epoch(List.copyOf(used), all.size() - first - used.size(), first);
  }
}
