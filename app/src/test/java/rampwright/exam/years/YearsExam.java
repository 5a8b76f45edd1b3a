package rampwright.exam.years;

import java.io.PrintStream;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.Random;
import rampwright.app.trend.FigureTrend;
import rampwright.app.trend.LoggedStart;
import rampwright.app.trend.StartsOfYears;
import rampwright.app.trend.TrendQuestion;
import rampwright.app.trend.TrendState;
import rampwright.app.trend.Trends;

/**
 * How good the trend is, start by start as the years go by: false alarms of one figure, delay and
 * date of a step of 10 % at 5 % scatter, cover of slopes and of forecasts stated as 90 %. Beside
 * it, on the same starts, a fixed threshold: three starts in a row more than 10 % from the median
 * of the first thirty.
 */
public final class YearsExam {
  private static final double SECONDS_PER_YEAR = 365.25 * 86_400;
  private static final int FOUND_WITHIN = 40;
  private static final double THRESHOLD = 0.1;
  private static final int IN_A_ROW = 3;
  private static final int THRESHOLD_BASE = 30;

  private final int assets;
  private final long seed;
  private final PrintStream out;

  private YearsExam(int assets, long seed, PrintStream out) {
    this.assets = assets;
    this.seed = seed;
    this.out = out;
  }

  /** Arguments: {@code assets seed}. */
  public static void main(String[] args) {
    YearsExam exam =
        new YearsExam(
            args.length > 0 ? Integer.parseInt(args[0]) : 60,
            args.length > 1 ? Long.parseLong(args[1]) : 1,
            System.out);
    exam.falseAlarms();
    exam.steps();
    exam.drifts();
  }

  private void say(String form, Object... values) {
    out.println(String.format(Locale.ROOT, form, values));
  }

  private static FigureTrend trend(List<LoggedStart> starts, double limit) {
    return Trends.of(
        new TrendQuestion(
            "start_time_s", starts, List.of(), OptionalDouble.of(limit), OptionalDouble.empty()));
  }

  private static boolean isChanged(FigureTrend trend) {
    return trend.state() == TrendState.STEP || trend.state() == TrendState.DRIFT;
  }

  private StartsOfYears plant(int asset, Random chance) {
    return new StartsOfYears(seed * 1_000_003 + asset)
        .perYear(30 * Math.pow(20, chance.nextDouble()))
        .scatter(0.03 + 0.04 * chance.nextDouble())
        .season(0.05 * chance.nextDouble());
  }

  private void falseAlarms() {
    double years = 0;
    int ours = 0;
    int threshold = 0;
    for (int a = 0; a < assets; a++) {
      Random chance = new Random(seed + a);
      List<LoggedStart> starts = plant(a, chance).make(60 + chance.nextInt(700));
      years += yearsOf(starts);
      boolean on = false;
      for (int n = Trends.FEWEST; n <= starts.size(); n++) {
        boolean now = isChanged(trend(starts.subList(0, n), 20));
        ours += now && !on ? 1 : 0;
        on = now;
      }
      threshold += thresholdAlarms(starts);
    }
    say(
        "nothing changed: %d assets, %.0f asset-years; alarms of one figure per asset-year: %.3f"
            + " (fixed threshold %.3f)",
        assets, years, ours / years, threshold / years);
  }

  private static double yearsOf(List<LoggedStart> starts) {
    return Duration.between(starts.get(0).at(), starts.get(starts.size() - 1).at()).toSeconds()
        / SECONDS_PER_YEAR;
  }

  private static int thresholdAlarms(List<LoggedStart> starts) {
    int alarms = 0;
    boolean on = false;
    for (int n = THRESHOLD_BASE; n <= starts.size(); n++) {
      boolean now = thresholdSays(starts.subList(0, n));
      alarms += now && !on ? 1 : 0;
      on = now;
    }
    return alarms;
  }

  private static boolean thresholdSays(List<LoggedStart> starts) {
    if (starts.size() < THRESHOLD_BASE + IN_A_ROW) {
      return false;
    }
    List<Double> first = new ArrayList<>();
    starts.subList(0, THRESHOLD_BASE).forEach(start -> first.add(start.value()));
    Collections.sort(first);
    double base = first.get(THRESHOLD_BASE / 2);
    int side = 0;
    for (LoggedStart start : starts.subList(starts.size() - IN_A_ROW, starts.size())) {
      double away = start.value() / base - 1;
      side += Math.abs(away) > THRESHOLD ? (int) Math.signum(away) : 0;
    }
    return Math.abs(side) == IN_A_ROW;
  }

  private void steps() {
    List<Integer> ours = new ArrayList<>();
    List<Integer> threshold = new ArrayList<>();
    List<Integer> dateErrors = new ArrayList<>();
    for (int a = 0; a < assets; a++) {
      Random chance = new Random(seed + 10_000 + a);
      int at = THRESHOLD_BASE + chance.nextInt(200);
      List<LoggedStart> starts =
          new StartsOfYears(seed * 7_001 + a)
              .perYear(30 * Math.pow(20, chance.nextDouble()))
              .season(0.04 * chance.nextDouble())
              .step(chance.nextBoolean() ? 0.1 : -0.1, at)
              .make(at + FOUND_WITHIN);
      int found = -1;
      int foundByThreshold = -1;
      for (int n = at + 1; n <= starts.size(); n++) {
        FigureTrend trend = found < 0 ? trend(starts.subList(0, n), 20) : null;
        if (trend != null && isChanged(trend)) {
          found = n - at;
        }
        if (foundByThreshold < 0 && thresholdSays(starts.subList(0, n))) {
          foundByThreshold = n - at;
        }
      }
      FigureTrend last = trend(starts, 20);
      last.step().ifPresent(step -> dateErrors.add(Math.abs(placeOf(starts, step.at()) - at)));
      ours.add(found < 0 ? FOUND_WITHIN + 1 : found);
      threshold.add(foundByThreshold < 0 ? FOUND_WITHIN + 1 : foundByThreshold);
    }
    say("step of 10 %% at 5 %% scatter, starts until it is said: %s", delays(ours));
    say("  by the fixed threshold: %s", delays(threshold));
    Collections.sort(dateErrors);
    say(
        "  place of the step after %d starts: right in %d of %d, within 3 starts in %d",
        FOUND_WITHIN,
        dateErrors.stream().filter(e -> e == 0).count(),
        dateErrors.size(),
        dateErrors.stream().filter(e -> e <= 3).count());
  }

  private static int placeOf(List<LoggedStart> starts, Instant at) {
    for (int i = 0; i < starts.size(); i++) {
      if (!starts.get(i).at().isBefore(at)) {
        return i;
      }
    }
    return starts.size();
  }

  private String delays(List<Integer> delays) {
    List<Integer> sorted = new ArrayList<>(delays);
    Collections.sort(sorted);
    return String.format(
        Locale.ROOT,
        "median %d, within 8 in %d %%, within 16 in %d %%, within 40 in %d %%",
        sorted.get(sorted.size() / 2),
        share(sorted, 8),
        share(sorted, 16),
        share(sorted, FOUND_WITHIN));
  }

  private long share(List<Integer> delays, int within) {
    return Math.round(100.0 * delays.stream().filter(d -> d <= within).count() / delays.size());
  }

  private void drifts() {
    int said = 0;
    int slopes = 0;
    int forecasts = 0;
    int covered = 0;
    int asked = 4 * assets;
    for (int a = 0; a < asked; a++) {
      Random chance = new Random(seed + 20_000 + a);
      double slope = 0.03 + 0.17 * chance.nextDouble();
      double perYear = 30 + chance.nextInt(300);
      double years = 0.7 + 2.3 * chance.nextDouble();
      double from = chance.nextBoolean() ? 0 : 0.5 * years * chance.nextDouble();
      StartsOfYears plant =
          new StartsOfYears(seed * 9_001 + a)
              .perYear(perYear)
              .season(0.03 * chance.nextDouble())
              .drift(slope, from);
      List<LoggedStart> starts = plant.make((int) Math.max(20, perYear * years));
      double grown = slope * Math.max(0, yearsOf(starts) - from);
      double limit = grown + 0.02 + 0.3 * chance.nextDouble();
      FigureTrend trend = trend(starts, 10 * (1 + limit));
      if (trend.drift().isEmpty()) {
        continue;
      }
      said++;
      FigureTrend.Drift drift = trend.drift().get();
      slopes += drift.low() <= 100 * slope && 100 * slope <= drift.high() ? 1 : 0;
      FigureTrend.Reached reached =
          trend.limit().flatMap(FigureTrend.LimitWatch::reached).orElse(null);
      if (reached != null) {
        forecasts++;
        Instant truth = plant.grownBy(limit);
        boolean late = reached.high().isPresent() && truth.isAfter(reached.high().get());
        covered += !late && !truth.isBefore(reached.low()) ? 1 : 0;
      }
    }
    say(
        "drifts of 3 to 20 %% a year: said in %d of %d; the true slope within its 5 to 95 %% in %.0f"
            + " %%; the true day of the limit within its range in %.0f %% of %d",
        said, asked, 100.0 * slopes / said, 100.0 * covered / forecasts, forecasts);
  }
}
