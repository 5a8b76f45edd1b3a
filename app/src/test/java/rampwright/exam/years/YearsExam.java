package rampwright.exam.years;

import java.io.PrintStream;
import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.stream.IntStream;
import rampwright.app.trend.FigureTrend;
import rampwright.app.trend.LoggedStart;
import rampwright.app.trend.StartsOfYears;
import rampwright.app.trend.TrendQuestion;
import rampwright.app.trend.Trends;
import rampwright.exam.plant.AssetGenerator;

/**
 * How good the trend is, start by start as the years go by: false alarms, delay and date of a step
 * of 10 % and of a drift of 10 % a year at 5 % scatter, cover of slopes and of forecasts stated as
 * 90 %. Beside it, on the same starts, a fixed threshold.
 */
public final class YearsExam {
  private static final int FOUND_WITHIN = 40;
  private static final double LONGEST_WAIT_YEARS = 3;

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
    exam.plants();
    exam.steps();
    exam.driftDelay();
    exam.drifts();
  }

  private void say(String form, Object... values) {
    out.println(String.format(Locale.ROOT, form, values));
  }

  private StartsOfYears plant(int asset, Random chance) {
    return new StartsOfYears(Watchers.stirred(seed, 10, asset))
        .perYear(30 * Math.pow(20, chance.nextDouble()))
        .scatter(0.03 + 0.04 * chance.nextDouble())
        .season(0.05 * chance.nextDouble());
  }

  private void falseAlarms() {
    List<double[]> counts =
        IntStream.range(0, assets)
            .parallel()
            .mapToObj(
                a -> {
                  Random chance = Watchers.chance(seed, 0, a);
                  List<LoggedStart> starts = plant(a, chance).make(60 + chance.nextInt(700));
                  Watchers watchers = new Watchers();
                  for (int n = Trends.FEWEST; n <= starts.size(); n++) {
                    watchers.see(starts.subList(0, n));
                  }
                  double[] alarms = watchers.alarms();
                  double[] all = Arrays.copyOf(alarms, alarms.length + 1);
                  all[alarms.length] = Watchers.yearsOf(starts);
                  return all;
                })
            .toList();
    double[] sums = new double[Watchers.NAMES.size() + 1];
    counts.forEach(c -> Arrays.setAll(sums, i -> sums[i] + c[i]));
    double years = sums[sums.length - 1];
    say(
        "nothing changed: %d assets, %.0f asset-years of one figure; alarms a year:",
        assets, years);
    for (int i = 0; i < Watchers.NAMES.size(); i++) {
      say("  %-48s %.3f", Watchers.NAMES.get(i), sums[i] / years);
    }
  }

  /** All figures of an asset together, as the machine model makes them. */
  private void plants() {
    AssetGenerator generator = new AssetGenerator(seed);
    double[] sums = new double[Watchers.NAMES.size() + 1];
    IntStream.range(0, assets)
        .parallel()
        .mapToObj(
            a ->
                PlantYears.of(generator.asset(a), Cause.NOTHING, Watchers.chance(seed, 4, a))
                    .map(YearsExam::alarmsOfAsset))
        .toList()
        .forEach(one -> one.ifPresent(counts -> Arrays.setAll(sums, i -> sums[i] + counts[i])));
    double years = sums[sums.length - 1];
    say(
        "nothing changed: plants of the machine model, %d figures each, %.0f asset-years; alarms of"
            + " an asset a year:",
        PlantYears.FIGURES.size(), years);
    for (int i = 0; i < Watchers.NAMES.size(); i++) {
      say("  %-48s %.3f", Watchers.NAMES.get(i), sums[i] / years);
    }
  }

  private static double[] alarmsOfAsset(List<TrendQuestion> questions) {
    double[] sums = new double[Watchers.NAMES.size() + 1];
    for (TrendQuestion question : questions) {
      Watchers watchers = new Watchers();
      for (int n = Trends.FEWEST; n <= question.starts().size(); n++) {
        watchers.see(question.starts().subList(0, n));
      }
      double[] alarms = watchers.alarms();
      for (int i = 0; i < alarms.length; i++) {
        sums[i] += alarms[i];
      }
    }
    sums[sums.length - 1] = Watchers.yearsOf(questions.get(0).starts());
    return sums;
  }

  private void steps() {
    int asked = 2 * assets;
    int[][] delays =
        IntStream.range(0, asked)
            .parallel()
            .mapToObj(
                a -> {
                  Random chance = Watchers.chance(seed, 1, a);
                  int at = Watchers.THRESHOLD_BASE + chance.nextInt(200);
                  List<LoggedStart> starts =
                      new StartsOfYears(Watchers.stirred(seed, 11, a))
                          .perYear(30 * Math.pow(20, chance.nextDouble()))
                          .season(0.04 * chance.nextDouble())
                          .step(chance.nextBoolean() ? 0.1 : -0.1, at)
                          .make(at + FOUND_WITHIN);
                  int[] found = new int[Watchers.NAMES.size() + 1];
                  Arrays.fill(found, FOUND_WITHIN + 1);
                  Watchers watchers = new Watchers();
                  for (int n = at + 1; n <= starts.size(); n++) {
                    boolean[] now = watchers.see(starts.subList(0, n));
                    for (int i = 0; i < now.length; i++) {
                      found[i] = now[i] ? Math.min(found[i], n - at) : found[i];
                    }
                  }
                  FigureTrend last = Watchers.trend(starts, Double.NaN);
                  found[now(found)] =
                      last.step().map(s -> Math.abs(placeOf(starts, s.at()) - at)).orElse(-1);
                  return found;
                })
            .toArray(int[][]::new);
    say("step of 10 %% at 5 %% scatter, %d of them, starts until it is said:", asked);
    for (int i = 0; i < Watchers.NAMES.size(); i++) {
      int which = i;
      say(
          "  %-48s %s",
          Watchers.NAMES.get(i), words(Arrays.stream(delays).mapToInt(d -> d[which]).toArray()));
    }
    int[] errors =
        Arrays.stream(delays).mapToInt(d -> d[now(d)]).filter(error -> error >= 0).toArray();
    say(
        "  its place %d starts later: right in %d of %d, within 3 starts in %d",
        FOUND_WITHIN,
        Arrays.stream(errors).filter(e -> e == 0).count(),
        errors.length,
        Arrays.stream(errors).filter(e -> e <= 3).count());
  }

  private static int now(int... found) {
    return found.length - 1;
  }

  private static int placeOf(List<LoggedStart> starts, Instant at) {
    for (int i = 0; i < starts.size(); i++) {
      if (!starts.get(i).at().isBefore(at)) {
        return i;
      }
    }
    return starts.size();
  }

  private static String words(int... delays) {
    int[] sorted = delays.clone();
    Arrays.sort(sorted);
    return String.format(
        Locale.ROOT,
        "median %d, within 8 in %.0f %%, 16 in %.0f %%, 40 in %.0f %%",
        sorted[sorted.length / 2],
        share(sorted, 8),
        share(sorted, 16),
        share(sorted, FOUND_WITHIN));
  }

  private static double share(int[] delays, int within) {
    return 100.0 * Arrays.stream(delays).filter(d -> d <= within).count() / delays.length;
  }

  /** A drift of 10 % a year that begins after a year without one. */
  private void driftDelay() {
    double[][] waits =
        IntStream.range(0, assets)
            .parallel()
            .mapToObj(
                a -> {
                  Random chance = Watchers.chance(seed, 2, a);
                  double perYear = 60 + chance.nextInt(240);
                  List<LoggedStart> starts =
                      new StartsOfYears(Watchers.stirred(seed, 12, a))
                          .perYear(perYear)
                          .season(0.03 * chance.nextDouble())
                          .drift(0.1, 1)
                          .make((int) (perYear * (1 + LONGEST_WAIT_YEARS)));
                  double[] found = new double[Watchers.NAMES.size()];
                  Arrays.fill(found, Double.POSITIVE_INFINITY);
                  Watchers watchers = new Watchers();
                  for (int n = Trends.FEWEST; n <= starts.size(); n++) {
                    double since = Watchers.yearsOf(starts.subList(0, n)) - 1;
                    if (since >= 0 && Double.isInfinite(Arrays.stream(found).max().orElse(0))) {
                      boolean[] now = watchers.see(starts.subList(0, n));
                      for (int i = 0; i < now.length; i++) {
                        found[i] = now[i] ? Math.min(found[i], since) : found[i];
                      }
                    }
                  }
                  return found;
                })
            .toArray(double[][]::new);
    say("drift of 10 %% a year at 5 %% scatter, after a year without; months until it is said:");
    for (int i = 0; i < Watchers.NAMES.size(); i++) {
      int which = i;
      double[] sorted = Arrays.stream(waits).mapToDouble(w -> 12 * w[which]).sorted().toArray();
      say(
          "  %-48s median %.1f, nine in ten %.1f",
          Watchers.NAMES.get(i),
          sorted[sorted.length / 2],
          sorted[(int) Math.min(sorted.length - 1.0, 0.9 * sorted.length)]);
    }
  }

  private void drifts() {
    int asked = 4 * assets;
    int[][] seen = IntStream.range(0, asked).parallel().mapToObj(this::drift).toArray(int[][]::new);
    int[] sums = new int[4];
    for (int[] one : seen) {
      Arrays.setAll(sums, i -> sums[i] + one[i]);
    }
    say(
        "drifts of 3 to 20 %% a year: said in %d of %d; the true slope within its 5 to 95 %% in %.0f"
            + " %%; the true day of the limit within its range in %.0f %% of %d",
        sums[0], asked, 100.0 * sums[1] / sums[0], 100.0 * sums[3] / sums[2], sums[2]);
  }

  /** Said, slope covered, forecast made, forecast covered. */
  private int[] drift(int a) {
    Random chance = Watchers.chance(seed, 3, a);
    double slope = 0.03 + 0.17 * chance.nextDouble();
    double perYear = 30 + chance.nextInt(300);
    double years = 0.7 + 2.3 * chance.nextDouble();
    double from = chance.nextBoolean() ? 0 : 0.5 * years * chance.nextDouble();
    StartsOfYears plant =
        new StartsOfYears(Watchers.stirred(seed, 13, a))
            .perYear(perYear)
            .season(0.03 * chance.nextDouble())
            .drift(slope, from);
    List<LoggedStart> starts = plant.make((int) Math.max(20, perYear * years));
    double grown = slope * Math.max(0, Watchers.yearsOf(starts) - from);
    double limit = grown + 0.02 + 0.3 * chance.nextDouble();
    FigureTrend trend = Watchers.trend(starts, 10 * (1 + limit));
    if (trend.drift().isEmpty()) {
      return new int[4];
    }
    FigureTrend.Drift drift = trend.drift().get();
    boolean covered = drift.low() <= 100 * slope && 100 * slope <= drift.high();
    FigureTrend.Reached reached =
        trend.limit().flatMap(FigureTrend.LimitWatch::reached).orElse(null);
    boolean held = reached != null && isWithin(plant.grownBy(limit), reached);
    return new int[] {1, covered ? 1 : 0, reached == null ? 0 : 1, held ? 1 : 0};
  }

  private static boolean isWithin(Instant truth, FigureTrend.Reached reached) {
    boolean late = reached.high().isPresent() && truth.isAfter(reached.high().get());
    return !late && !truth.isBefore(reached.low());
  }

  static Duration lengthOf(List<LoggedStart> starts) {
    return Duration.between(starts.get(0).at(), starts.get(starts.size() - 1).at());
  }
}
