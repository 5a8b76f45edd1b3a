package rampwright.app.trend;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import rampwright.app.trend.FigureTrend.Baseline;
import rampwright.app.trend.FigureTrend.Drift;
import rampwright.app.trend.FigureTrend.LimitWatch;
import rampwright.app.trend.FigureTrend.Point;
import rampwright.app.trend.FigureTrend.Reached;
import rampwright.app.trend.FigureTrend.Step;

/** The way in: starts of an asset to what a figure does. */
public final class Trends {
  /** Fewest starts of the present settings for any answer. */
  public static final int FEWEST = 12;

  private static final double SECONDS_PER_YEAR = 365.25 * 86_400;
  private static final int NEIGHBOURS = 4;
  private static final double REACH = 3;

  private static final int ENOUGH_FOR_BASELINE = 30;

  /** Latest starts that Sen's slope looks at; its cost grows with the square. */
  private static final int MOST_FOR_SEN = 1500;

  private Trends() {}

  public static FigureTrend of(TrendQuestion question) {
    Epoch epoch = Epoch.last(question.starts(), question.events());
    List<LoggedStart> starts = epoch.starts();
    if (starts.size() < FEWEST) {
      return tooFew(question, epoch);
    }
    double[] raw = starts.stream().mapToDouble(LoggedStart::value).toArray();
    double scale = RobustScale.median(raw);
    if (scale == 0) {
      scale = Arrays.stream(raw).map(Math::abs).max().orElse(0);
    }
    if (scale == 0) {
      return cannotTell(question, starts, "every start shows 0");
    }
    Instant origin = starts.get(0).at();
    double[] timeYears =
        starts.stream().mapToDouble(start -> yearsBetween(origin, start.at())).toArray();
    double[] relative = new double[raw.length];
    for (int i = 0; i < raw.length; i++) {
      relative[i] = raw[i] / Math.abs(scale) - Math.signum(scale);
    }
    double sd = spread(relative);
    double[] weights = RobustScale.weights(relative, sd, NEIGHBOURS, REACH);
    Conditions conditions = Conditions.of(starts, timeYears);
    ChangeModel model = ChangeModel.of(relative, timeYears, weights, conditions, sd);
    return new Answer(question, starts, model, conditions, raw, timeYears, Math.abs(scale), origin)
        .build();
  }

  private static double yearsBetween(Instant from, Instant to) {
    return Duration.between(from, to).toMillis() / 1000.0 / SECONDS_PER_YEAR;
  }

  /** Never below the resolution: readings that hardly change would make any change certain. */
  private static double spread(double[] relative) {
    double neighbours = RobustScale.ofNeighbours(relative);
    double all = RobustScale.NORMAL_PER_MAD * RobustScale.mad(relative);
    double step = leastDifference(relative) / Math.sqrt(12);
    double floor = Math.max(1e-4, step);
    return Math.max(floor, neighbours > 0 ? neighbours : all);
  }

  private static double leastDifference(double[] values) {
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

  private static FigureTrend tooFew(TrendQuestion question, Epoch epoch) {
    int n = epoch.starts().size();
    String why =
        String.format(
            Locale.ROOT,
            "%d %s with this figure since the %s; %d are needed",
            n,
            n == 1 ? "start" : "starts",
            epoch.earlier() > 0 ? "settings or the machine last changed" : "first",
            FEWEST);
    return cannotTell(question, epoch.starts(), why);
  }

  private static FigureTrend cannotTell(
      TrendQuestion question, List<LoggedStart> starts, String why) {
    return new FigureTrend(
        question.figure(),
        starts.size(),
        TrendState.CANNOT_TELL,
        why,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        limitOf(question)
            .map(limit -> new LimitWatch(limit, question.upper().isPresent(), Optional.empty())),
        Optional.empty(),
        starts.stream()
            .map(start -> new Point(start.at(), start.value(), start.value(), Double.NaN))
            .toList(),
        List.of());
  }

  private static Optional<Double> limitOf(TrendQuestion question) {
    OptionalDouble limit = question.upper().isPresent() ? question.upper() : question.lower();
    return limit.isPresent() ? Optional.of(limit.getAsDouble()) : Optional.empty();
  }

  /** One answer under way. */
  private record Answer(
      TrendQuestion question,
      List<LoggedStart> starts,
      ChangeModel model,
      Conditions conditions,
      double[] raw,
      double[] timeYears,
      double scale,
      Instant origin) {

    FigureTrend build() {
      double[] corrected = new double[raw.length];
      List<Point> points = new ArrayList<>();
      double centre = Math.signum(RobustScale.median(raw));
      for (int i = 0; i < raw.length; i++) {
        corrected[i] = raw[i] - scale * model.conditionsAt(i);
        points.add(
            new Point(
                starts.get(i).at(), raw[i], corrected[i], scale * (model.usualAt(i) + centre)));
      }
      Baseline baseline = baseline(corrected);
      Optional<LimitForecast> forecast =
          model.last(Change.Kind.DRIFT).map(change -> LimitForecast.of(model));
      Optional<Drift> drift = forecast.flatMap(draws -> drift(corrected, baseline, draws));
      Optional<Step> step = step(baseline);
      TrendState state =
          drift.isPresent()
              ? TrendState.DRIFT
              : step.isPresent() ? TrendState.STEP : TrendState.STEADY;
      Optional<Instant> since =
          drift.map(Drift::begin).or(() -> step.map(Step::at)).or(() -> Optional.of(origin));
      return new FigureTrend(
          question.figure(),
          raw.length,
          state,
          TrendWords.why(state, baseline, step, drift, raw.length),
          Optional.of(baseline),
          step,
          drift,
          limit(forecast, centre),
          since,
          points,
          conditions.names().stream().skip(1).distinct().toList());
    }

    /**
     * The starts before anything changed; where that are few, as in a drift from the first start,
     * some after it, the change taken off.
     */
    private Baseline baseline(double[] corrected) {
      int until = raw.length;
      for (Change change : model.changes()) {
        until = Math.min(until, change.first());
      }
      until = Math.max(until, Math.min(raw.length, ENOUGH_FOR_BASELINE));
      double[] before = new double[until];
      for (int i = 0; i < until; i++) {
        before[i] = corrected[i] - scale * model.changedBy(i);
      }
      return new Baseline(
          RobustScale.median(before),
          RobustScale.mad(before),
          until,
          starts.get(0).at(),
          starts.get(until - 1).at());
    }

    private Optional<Step> step(Baseline baseline) {
      double[] together = model.stepsTogether();
      boolean away =
          Math.abs(together[0]) >= ChangeModel.LEAST_SIZE
              && Math.abs(together[0]) > 2 * together[1];
      return model
          .last(Change.Kind.STEP)
          .filter(change -> away)
          .map(
              change -> {
                double[] places = model.places(change);
                return new Step(
                    starts.get(change.first()).at(),
                    100 * together[0] * scale / Math.abs(baseline.median()),
                    change.chance(),
                    starts.get(place(places, 0.05)).at(),
                    starts.get(place(places, 0.95)).at());
              });
    }

    private static int place(double[] chances, double share) {
      double sum = 0;
      for (int i = 0; i < chances.length; i++) {
        sum += chances[i];
        if (sum >= share) {
          return i;
        }
      }
      return chances.length - 1;
    }

    private Optional<Drift> drift(double[] corrected, Baseline baseline, LimitForecast forecast) {
      return model
          .last(Change.Kind.DRIFT)
          .map(
              change -> {
                double pct = 100 * scale / Math.abs(baseline.median());
                int from = Math.max(change.first(), raw.length - MOST_FOR_SEN);
                double[] since = Arrays.copyOfRange(corrected, from, raw.length);
                double[] times = Arrays.copyOfRange(timeYears, from, raw.length);
                SenSlope sen = SenSlope.of(times, since, 1.645);
                return new Drift(
                    pct * forecast.slope(0.5),
                    pct * forecast.slope(0.05),
                    pct * forecast.slope(0.95),
                    starts.get(change.first()).at(),
                    change.chance(),
                    100 * sen.slope() / Math.abs(baseline.median()),
                    MannKendall.of(since).p());
              });
    }

    private Optional<LimitWatch> limit(Optional<LimitForecast> forecast, double centre) {
      Optional<LimitWatch> upper = watch(forecast, centre, question.upper(), true);
      Optional<LimitWatch> lower = watch(forecast, centre, question.lower(), false);
      boolean lowerComes = lower.isPresent() && lower.get().reached().isPresent();
      return upper.isEmpty() || (lowerComes && upper.get().reached().isEmpty()) ? lower : upper;
    }

    private Optional<LimitWatch> watch(
        Optional<LimitForecast> forecast, double centre, OptionalDouble limit, boolean upper) {
      if (limit.isEmpty()) {
        return Optional.empty();
      }
      double relative = limit.getAsDouble() / scale - centre;
      Optional<Reached> reached =
          forecast.flatMap(draws -> draws.reaches(relative, upper)).map(this::dates);
      return Optional.of(new LimitWatch(limit.getAsDouble(), upper, reached));
    }

    private Reached dates(double[] years) {
      return new Reached(
          at(years[1]),
          at(years[0]),
          Double.isInfinite(years[2]) ? Optional.empty() : Optional.of(at(years[2])));
    }

    private Instant at(double years) {
      return origin.plusSeconds(Math.round(years * SECONDS_PER_YEAR));
    }
  }
}
