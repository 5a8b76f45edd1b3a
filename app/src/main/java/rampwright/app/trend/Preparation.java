package rampwright.app.trend;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Makes the figures of one asset ready. Most have the same starts, and what depends on these alone
 * is done once.
 */
final class Preparation {
  private @Nullable StartSeries known;
  private List<Instant> knownEvents = List.of();
  private int knownFirst;

  /** Parts of the series that is known, by the starts they have. */
  private final List<Part> parts = new ArrayList<>();

  /** Conditions of starts met so far. */
  private final List<Prepared> ready = new ArrayList<>();

  @SuppressWarnings("ArrayRecordComponent")
  private record Part(int[] index, StartSeries series) {}

  /** The starts of the present settings that carry the figure. */
  Epoch epoch(TrendQuestion question) {
    FigureStarts all = FigureStarts.of(question.starts());
    StartSeries series = all.series();
    if (series != known || !question.events().equals(knownEvents)) {
      parts.clear();
      known = series;
      knownEvents = question.events();
      knownFirst = first(series, question.events());
    }
    return new Epoch(whole(all, knownFirst, all.size()), knownFirst, whole(all, 0, knownFirst));
  }

  /** Ready for fitting; nothing where every start shows 0. */
  Optional<Prepared> prepared(Epoch epoch) {
    Prepared like = null;
    for (Prepared one : ready) {
      if (one.starts().isLike(epoch.starts().series())) {
        like = one;
        break;
      }
    }
    Optional<Prepared> made = Prepared.of(epoch.starts(), like);
    if (like == null) {
      made.ifPresent(ready::add);
    }
    return made;
  }

  private static int first(StartSeries all, List<Instant> events) {
    int first = 0;
    for (int i = 1; i < all.size(); i++) {
      boolean worked = !events.isEmpty() && isWithin(events, all.at(i - 1), all.at(i));
      if (worked || !all.settings(i).equals(all.settings(i - 1))) {
        first = i;
      }
    }
    return first;
  }

  private static boolean isWithin(List<Instant> events, Instant before, Instant here) {
    return events.stream().anyMatch(at -> at.isAfter(before) && !at.isAfter(here));
  }

  private FigureStarts whole(FigureStarts all, int from, int to) {
    double[] values = all.values();
    int[] index = new int[to - from];
    int n = 0;
    for (int i = from; i < to; i++) {
      if (all.series().counts(i) && Double.isFinite(values[i])) {
        index[n++] = i;
      }
    }
    if (n == values.length) {
      return all;
    }
    index = Arrays.copyOf(index, n);
    double[] kept = new double[n];
    for (int i = 0; i < n; i++) {
      kept[i] = values[index[i]];
    }
    return new FigureStarts(part(all.series(), index), kept);
  }

  private StartSeries part(StartSeries of, int[] index) {
    for (Part part : parts) {
      if (Arrays.equals(part.index(), index)) {
        return part.series();
      }
    }
    StartSeries series = of.only(index);
    parts.add(new Part(index, series));
    return series;
  }
}
