package rampwright.app.trend;

import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * Starts of the present settings, made ready for fitting.
 *
 * @param starts that count and carry the figure
 * @param raw their values
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
    double[] raw,
    double scale,
    double[] timeYears,
    double[] relative,
    double[] weights,
    double sd,
    Conditions conditions) {

  private static final double SECONDS_PER_YEAR = 365.25 * 86_400;
  private static final int NEIGHBOURS = 4;
  private static final double REACH = 3;

  /** Nothing where every start shows 0. */
  static Optional<Prepared> of(List<LoggedStart> starts) {
    double[] raw = starts.stream().mapToDouble(LoggedStart::value).toArray();
    double scale = RobustScale.median(raw);
    if (scale == 0) {
      scale = Arrays.stream(raw).map(Math::abs).max().orElse(0);
    }
    if (scale == 0 || raw.length == 0) {
      return Optional.empty();
    }
    Instant origin = starts.get(0).at();
    double[] timeYears = starts.stream().mapToDouble(s -> years(origin, s.at())).toArray();
    double[] relative = new double[raw.length];
    for (int i = 0; i < raw.length; i++) {
      relative[i] = raw[i] / Math.abs(scale) - Math.signum(scale);
    }
    double sd = spread(relative);
    return Optional.of(
        new Prepared(
            starts,
            raw,
            Math.abs(scale),
            timeYears,
            relative,
            RobustScale.weights(relative, sd, NEIGHBOURS, REACH),
            sd,
            Conditions.of(starts, timeYears)));
  }

  Instant origin() {
    return starts.get(0).at();
  }

  /** The instant so many years after the first start. */
  Instant at(double years) {
    return origin().plusSeconds(Math.round(years * SECONDS_PER_YEAR));
  }

  private static double years(Instant from, Instant to) {
    return Duration.between(from, to).toMillis() / 1000.0 / SECONDS_PER_YEAR;
  }

  /** Never below the resolution: readings that hardly change would make any change certain. */
  private static double spread(double... relative) {
    double neighbours = RobustScale.ofNeighbours(relative);
    double all = RobustScale.NORMAL_PER_MAD * RobustScale.mad(relative);
    double step = leastDifference(relative) / Math.sqrt(12);
    double floor = Math.max(1e-4, step);
    return Math.max(floor, neighbours > 0 ? neighbours : all);
  }

  private static double leastDifference(double... values) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    double least = Double.POSITIVE_INFINITY;
    for (int i = 1; i < sorted.length; i++) {
      double difference = sorted[i] - sorted[i - 1];
      if (difference > 1e-9) {
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
