package rampwright.app.trend;

import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;
import rampwright.app.trend.FigureTrend.LimitWatch;
import rampwright.app.trend.FigureTrend.Reached;

/** Where a figure stands to the limits of its envelope, and when it reaches them. */
final class Limits {
  /** Latest starts that are held against a limit as measured. */
  private static final int LATEST = 10;

  private final Prepared ready;
  private final double[] usual;
  private final Optional<LimitForecast> forecast;
  private final double centre;

  /**
   * Of one figure.
   *
   * @param usual the model's value at each start, in usual conditions, in the figure's unit
   * @param centre what the relative values are about
   */
  Limits(Prepared ready, double[] usual, Optional<LimitForecast> forecast, double centre) {
    this.ready = ready;
    this.usual = usual.clone();
    this.forecast = forecast;
    this.centre = centre;
  }

  /** The one that is exceeded, else the one that comes, else the upper one. */
  static Optional<LimitWatch> nearer(Optional<LimitWatch> upper, Optional<LimitWatch> lower) {
    return upper.isEmpty() || rank(lower) > rank(upper) ? lower : upper;
  }

  private static int rank(Optional<LimitWatch> watch) {
    return watch
        .map(
            w ->
                w.beyondSince().isPresent()
                    ? 3
                    : w.lately() > 0 ? 2 : w.reached().isPresent() ? 1 : 0)
        .orElse(0);
  }

  /** Without a model: only what was measured. */
  static Optional<LimitWatch> measured(OptionalDouble limit, boolean upper, double... raw) {
    if (limit.isEmpty()) {
      return Optional.empty();
    }
    double value = limit.getAsDouble();
    return Optional.of(
        new LimitWatch(
            value,
            upper,
            Double.NaN,
            Optional.empty(),
            lately(value, upper, raw),
            Math.min(LATEST, raw.length),
            Optional.empty()));
  }

  Optional<LimitWatch> watch(OptionalDouble limit, boolean upper) {
    if (limit.isEmpty()) {
      return Optional.empty();
    }
    double value = limit.getAsDouble();
    Optional<Instant> since = beyondSince(value, upper);
    Optional<Reached> reached =
        since.isPresent()
            ? Optional.empty()
            : forecast
                .flatMap(draws -> draws.reaches(value / ready.scale() - centre, upper))
                .map(this::dates);
    return Optional.of(
        new LimitWatch(
            value,
            upper,
            usual[usual.length - 1],
            since,
            lately(value, upper, ready.raw()),
            Math.min(LATEST, usual.length),
            reached));
  }

  private Optional<Instant> beyondSince(double limit, boolean upper) {
    int first = usual.length;
    while (first > 0 && isBeyond(usual[first - 1], limit, upper)) {
      first--;
    }
    return first == usual.length ? Optional.empty() : Optional.of(ready.starts().at(first));
  }

  private static int lately(double limit, boolean upper, double... raw) {
    int beyond = 0;
    for (int i = Math.max(0, raw.length - LATEST); i < raw.length; i++) {
      beyond += isBeyond(raw[i], limit, upper) ? 1 : 0;
    }
    return beyond;
  }

  private static boolean isBeyond(double value, double limit, boolean upper) {
    return upper ? value > limit : value < limit;
  }

  private Reached dates(double[] years) {
    return new Reached(
        ready.at(years[1]),
        ready.at(years[0]),
        Double.isInfinite(years[2]) ? Optional.empty() : Optional.of(ready.at(years[2])));
  }
}
