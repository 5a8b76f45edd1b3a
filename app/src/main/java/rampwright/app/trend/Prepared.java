package rampwright.app.trend;

import java.time.Instant;
import java.util.Arrays;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Starts of the present settings, made ready for fitting.
 *
 * @param starts that count and carry the figure
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
    StartSeries starts,
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
  static Optional<Prepared> of(FigureStarts starts) {
    return of(starts, null);
  }

  /**
   * The same after another figure.
   *
   * @param same of a figure whose starts are like these: what does not depend on the figure is
   *     taken from there; null for none
   */
  static Optional<Prepared> of(FigureStarts starts, @Nullable Prepared same) {
    double[] raw = starts.values();
    double median = RobustScale.median(raw);
    double scale = median;
    if (scale == 0) {
      scale = Arrays.stream(raw).map(Math::abs).max().orElse(0);
    }
    if (scale == 0 || raw.length == 0) {
      return Optional.empty();
    }
    StartSeries series = starts.series();
    double[] timeYears = same == null ? timeYears(series) : same.timeYears;
    double[] relative = new double[raw.length];
    double size = Math.abs(scale);
    double centre = Math.signum(scale);
    for (int i = 0; i < raw.length; i++) {
      relative[i] = raw[i] / size - centre;
    }
    double sd = spread(relative);
    return Optional.of(
        new Prepared(
            series,
            raw,
            median,
            size,
            timeYears,
            relative,
            RobustScale.weights(relative, sd, NEIGHBOURS, REACH),
            sd,
            same == null ? Conditions.of(series, timeYears) : same.conditions));
  }

  private static double[] timeYears(StartSeries starts) {
    double[] years = new double[starts.size()];
    for (int i = 0; i < years.length; i++) {
      years[i] = (starts.atMillis(i) - starts.atMillis(0)) / 1000.0 / SECONDS_PER_YEAR;
    }
    return years;
  }

  Instant origin() {
    return starts.at(0);
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
