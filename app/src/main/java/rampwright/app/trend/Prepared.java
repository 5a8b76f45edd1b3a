package rampwright.app.trend;

import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Starts of the present settings, made ready for fitting.
 *
 * @param starts that count and carry the figure
 * @param at when each was made
 * @param raw their values
 * @param median of them
 * @param scale what values are divided by: the median's magnitude
 * @param timeYears since the first of them
 * @param relative values about the median, as shares of it
 * @param weights 0 to 1, less for a value far from its neighbours
 * @param sd of one value, relative
 * @param conditions what legitimately moves a start
 */
@SuppressWarnings("ArrayRecordComponent")
record Prepared(
    List<LoggedStart> starts,
    List<Instant> at,
    double[] raw,
    double median,
    double scale,
    double[] timeYears,
    double[] relative,
    double[] weights,
    double sd,
    Conditions conditions) {

  private static final double SECONDS_PER_YEAR = 365.25 * 86_400;
  private static final double SQRT12 = Math.sqrt(12);
  private static final double LEAST_SD = 1e-4;

  /** Values no farther apart than this are the same reading. */
  private static final double SAME = 1e-9;

  private static final int NEIGHBOURS = 4;
  private static final double REACH = 3;

  /** Nothing where every start shows 0. */
  static Optional<Prepared> of(List<LoggedStart> starts) {
    return of(starts, null);
  }

  /**
   * The same after another figure, mostly of the same starts: what does not depend on the figure is
   * taken from there.
   */
  static Optional<Prepared> of(List<LoggedStart> starts, @Nullable Prepared former) {
    double[] raw = starts.stream().mapToDouble(LoggedStart::value).toArray();
    double median = RobustScale.median(raw);
    double scale = median;
    if (scale == 0) {
      scale = Arrays.stream(raw).map(Math::abs).max().orElse(0);
    }
    if (scale == 0 || raw.length == 0) {
      return Optional.empty();
    }
    Prepared same = former != null && isSame(starts, former.starts) ? former : null;
    double[] timeYears = same == null ? timeYears(starts) : same.timeYears;
    double[] relative = new double[raw.length];
    for (int i = 0; i < raw.length; i++) {
      relative[i] = raw[i] / Math.abs(scale) - Math.signum(scale);
    }
    double sd = spread(relative);
    return Optional.of(
        new Prepared(
            starts,
            same == null ? starts.stream().map(LoggedStart::at).toList() : same.at,
            raw,
            median,
            Math.abs(scale),
            timeYears,
            relative,
            RobustScale.weights(relative, sd, NEIGHBOURS, REACH),
            sd,
            same == null ? Conditions.of(starts, timeYears) : same.conditions));
  }

  private static double[] timeYears(List<LoggedStart> starts) {
    long origin = starts.get(0).at().toEpochMilli();
    return starts.stream()
        .mapToDouble(s -> (s.at().toEpochMilli() - origin) / 1000.0 / SECONDS_PER_YEAR)
        .toArray();
  }

  /** Whether conditions were the same: the same instants and voltages. */
  private static boolean isSame(List<LoggedStart> starts, List<LoggedStart> others) {
    boolean same = starts.size() == others.size();
    for (int i = 0; same && i < starts.size(); i++) {
      LoggedStart a = starts.get(i);
      LoggedStart b = others.get(i);
      same = a.at().equals(b.at()) && Double.compare(a.voltageBeforeV(), b.voltageBeforeV()) == 0;
    }
    return same;
  }

  Instant origin() {
    return starts.get(0).at();
  }

  /** The instant so many years after the first start. */
  Instant at(double years) {
    return origin().plusSeconds(Math.round(years * SECONDS_PER_YEAR));
  }

  /** Never below the resolution: readings that hardly change would make any change certain. */
  private static double spread(double... relative) {
    double neighbours = RobustScale.ofNeighbours(relative);
    double sd =
        Math.max(
            LEAST_SD,
            neighbours > 0 ? neighbours : RobustScale.NORMAL_PER_MAD * RobustScale.mad(relative));
    // one small difference shows that the resolution is finer: no need to look for the smallest
    for (int i = 1; i < relative.length; i++) {
      double difference = Math.abs(relative[i] - relative[i - 1]);
      if (difference > SAME && difference <= SQRT12 * sd) {
        return sd;
      }
    }
    return Math.max(sd, leastDifference(relative) / SQRT12);
  }

  private static double leastDifference(double... values) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    double least = Double.POSITIVE_INFINITY;
    for (int i = 1; i < sorted.length; i++) {
      double difference = sorted[i] - sorted[i - 1];
      if (difference > SAME) {
        least = Math.min(least, difference);
      }
    }
    return Double.isInfinite(least) ? 0 : least;
  }

  @Override
  public boolean equals(Object other) {
    return this == other;
  }

  @Override
  public int hashCode() {
    return System.identityHashCode(this);
  }
}
