package rampwright.app.trend;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import rampwright.app.trend.FigureTrend.Baseline;
import rampwright.app.trend.FigureTrend.Drift;
import rampwright.app.trend.FigureTrend.Step;

/** The way in: starts of an asset to what a figure does. */
public final class Trends {
  /** Fewest starts of the present settings for any answer. */
  public static final int FEWEST = 12;

  private static final int ENOUGH_FOR_BASELINE = 30;

  /** Latest starts that Sen's slope looks at; its cost grows with the square. */
  private static final int MOST_FOR_SEN = 1500;

  private Trends() {}

  /** What one figure does. */
  public static FigureTrend of(TrendQuestion question) {
    return of(List.of(question)).get(0);
  }

  /** What the figures of one asset do; much of the work is the same for all of them. */
  public static List<FigureTrend> of(List<TrendQuestion> questions) {
    List<FigureTrend> trends = new ArrayList<>();
    Preparation preparation = new Preparation();
    for (TrendQuestion question : questions) {
      Epoch epoch = preparation.epoch(question);
      Optional<Prepared> ready =
          epoch.starts().size() < FEWEST ? Optional.empty() : preparation.prepared(epoch);
      trends.add(of(question, epoch, ready));
    }
    return trends;
  }

  private static FigureTrend of(TrendQuestion question, Epoch epoch, Optional<Prepared> prepared) {
    if (epoch.starts().size() < FEWEST) {
      return tooFew(question, epoch);
    }
    if (prepared.isEmpty()) {
      return cannotTell(question, epoch, "every start shows 0");
    }
    Prepared ready = prepared.get();
    ChangeModel model =
        ChangeModel.of(
            ready.relative(), ready.timeYears(), ready.weights(), ready.conditions(), ready.sd());
    return new Answer(question, epoch, ready, model).build();
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
    return cannotTell(question, epoch, why);
  }

  private static FigureTrend cannotTell(TrendQuestion question, Epoch epoch, String why) {
    FigureStarts starts = epoch.starts();
    double[] raw = starts.values();
    return new FigureTrend(
        question.figure(),
        starts.size(),
        TrendState.CANNOT_TELL,
        why,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Limits.nearer(
            Limits.measured(question.upper(), true, raw),
            Limits.measured(question.lower(), false, raw)),
        Optional.empty(),
        Points.measured(starts),
        Points.measured(epoch.before()),
        Double.NaN,
        List.of());
  }

  /** One answer under way. */
  private record Answer(TrendQuestion question, Epoch epoch, Prepared ready, ChangeModel model) {

    private double[] raw() {
      return ready.raw();
    }

    private Instant at(int i) {
      return ready.starts().at(i);
    }

    private double scale() {
      return ready.scale();
    }

    FigureTrend build() {
      double[] raw = raw();
      double centre = Math.signum(ready.median());
      double[] changes = model.byChanges();
      double[] corrected = less(raw, scale(), model.byConditions());
      double[] usual = scaled(scale(), model.level() + centre, changes);
      Baseline baseline = baseline(corrected, changes);
      Optional<LimitForecast> forecast =
          model.last(Change.Kind.DRIFT).map(change -> LimitForecast.of(model));
      Optional<Drift> drift = forecast.flatMap(draws -> drift(corrected, baseline, draws));
      Optional<Step> step = step(corrected, baseline);
      TrendState state =
          drift.isPresent()
              ? TrendState.DRIFT
              : step.isPresent() ? TrendState.STEP : TrendState.STEADY;
      Optional<Instant> since =
          drift
              .map(Drift::begin)
              .or(() -> step.map(Step::at))
              .or(() -> Optional.of(ready.origin()));
      Limits limits = new Limits(ready, usual, forecast, centre);
      return new FigureTrend(
          question.figure(),
          raw.length,
          state,
          new TrendWords(question.zone()).why(state, baseline, step, drift, raw.length),
          Optional.of(baseline),
          step,
          drift,
          Limits.nearer(
              limits.watch(question.upper(), true), limits.watch(question.lower(), false)),
          since,
          Points.of(ready.starts().at(), raw, corrected, usual),
          Points.measured(epoch.before()),
          scale() * ready.sd(),
          ready.conditions().names());
    }

    // loops apart: together with what is rare, the machine would compile them over and over

    private static double[] less(double[] values, double scale, double[] relative) {
      double[] less = new double[values.length];
      for (int i = 0; i < less.length; i++) {
        less[i] = values[i] - scale * relative[i];
      }
      return less;
    }

    private static double[] scaled(double scale, double level, double[] relative) {
      double[] scaled = new double[relative.length];
      for (int i = 0; i < scaled.length; i++) {
        scaled[i] = scale * (level + relative[i]);
      }
      return scaled;
    }

    /**
     * The starts before anything changed; where that are few, as in a drift from the first start,
     * some after it, the change taken off.
     */
    private Baseline baseline(double[] corrected, double[] changes) {
      int until = raw().length;
      for (Change change : model.changes()) {
        until = Math.min(until, change.first());
      }
      until = Math.max(until, Math.min(raw().length, ENOUGH_FOR_BASELINE));
      double[] before = less(Arrays.copyOf(corrected, until), scale(), changes);
      double median = RobustScale.median(before);
      return new Baseline(
          median, RobustScale.madAbout(median, before), until, at(0), at(until - 1));
    }

    private Optional<Step> step(double[] corrected, Baseline baseline) {
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
                    at(change.first()),
                    100 * together[0] * scale() / Math.abs(baseline.median()),
                    change.chance(),
                    at(place(places, 0.05)),
                    at(place(places, 0.95)),
                    Pettitt.of(corrected).p());
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
                double pct = 100 * scale() / Math.abs(baseline.median());
                int from = Math.max(change.first(), raw().length - MOST_FOR_SEN);
                double[] since = Arrays.copyOfRange(corrected, from, raw().length);
                double[] times = Arrays.copyOfRange(ready.timeYears(), from, raw().length);
                return new Drift(
                    pct * forecast.slope(0.5),
                    pct * forecast.slope(0.05),
                    pct * forecast.slope(0.95),
                    at(change.first()),
                    change.chance(),
                    100 * SenSlope.middle(times, since) / Math.abs(baseline.median()),
                    MannKendall.of(since).p());
              });
    }
  }
}
