package rampwright.app.trend;

import java.time.Instant;
import java.util.List;
import java.util.Optional;

/**
 * One figure of one asset over its starts.
 *
 * @param figure key of the figure
 * @param n starts of the present settings that carry the figure and count
 * @param state what it does
 * @param why in words: what the state rests on, or why it cannot be told
 * @param baseline what later starts are held against
 * @param step the last one, where one is seen
 * @param drift where one is seen
 * @param limit of the envelope, where there is one
 * @param since when the present state began: the step, the drift's beginning, or the first start of
 *     the present settings
 * @param corrected the starts in order, brought to the usual conditions
 * @param earlier starts of earlier settings, as measured
 * @param scatter standard deviation of one start, in the figure's unit; NaN where not to be had
 * @param conditions what the figure was corrected for
 */
public record FigureTrend(
    String figure,
    int n,
    TrendState state,
    String why,
    Optional<Baseline> baseline,
    Optional<Step> step,
    Optional<Drift> drift,
    Optional<LimitWatch> limit,
    Optional<Instant> since,
    List<Point> corrected,
    List<Point> earlier,
    double scatter,
    List<String> conditions) {

  /**
   * Chance from which a change raises an alert: six to one. Higher than for a word in a table,
   * since an asset has several figures and an alert calls a person: chosen on simulated years for
   * at most one false alarm of an asset of nine figures in five years; `docs/trend.md` has the
   * rates.
   */
  public static final double ALERT_FROM = 0.85;

  /** More than an alert looks back for. */
  private static final int LATEST = 16;

  public FigureTrend {
    corrected = corrected instanceof Points ? corrected : List.copyOf(corrected);
    earlier = earlier instanceof Points ? earlier : List.copyOf(earlier);
    conditions = List.copyOf(conditions);
  }

  /**
   * The same with the latest starts alone: for one of a large fleet that wants no look, and of
   * which no chart is drawn.
   */
  public FigureTrend brief() {
    return new FigureTrend(
        figure,
        n,
        state,
        why,
        baseline,
        step,
        drift,
        limit,
        since,
        corrected instanceof Points points ? points.latest(LATEST) : corrected,
        List.of(),
        scatter,
        conditions);
  }

  /** How sure the change is, 0 where there is none. */
  public double chance() {
    return Math.max(step.map(Step::chance).orElse(0.0), drift.map(Drift::chance).orElse(0.0));
  }

  /** How much the change stands out: its size over one start's scatter, times how sure it is. */
  double weight() {
    double pct =
        Math.max(
            step.map(s -> Math.abs(s.sizePct())).orElse(0.0),
            drift.map(d -> Math.abs(d.pctPerYear())).orElse(0.0));
    double scatterPct = 100 * scatter / Math.abs(baseline.map(Baseline::median).orElse(1.0));
    return chance() * pct / Math.max(0.1, scatterPct);
  }

  /** Whether a limit is exceeded, in usual conditions, or was by some of the latest starts. */
  public boolean isBeyond() {
    return limit.map(watch -> watch.beyondSince().isPresent()).orElse(false);
  }

  /**
   * Starts that set the measure.
   *
   * @param median in the figure's unit, in usual conditions
   * @param mad median absolute deviation, not scaled
   */
  public record Baseline(double median, double mad, int n, Instant from, Instant to) {}

  /**
   * A lasting jump.
   *
   * @param at first start after it
   * @param sizePct of the baseline
   * @param chance that there is one, 0 to 1
   * @param low earliest start at which it may have been, 5 % on this side
   * @param high latest
   * @param pettittP Pettitt's chance of such a change of ranks in starts without one
   */
  public record Step(
      Instant at, double sizePct, double chance, Instant low, Instant high, double pettittP) {}

  /**
   * A lasting change with time.
   *
   * @param pctPerYear of the baseline, now
   * @param low 5 %
   * @param high 95 %
   * @param begin when it began, most likely
   * @param chance that there is one
   * @param senPctPerYear Sen's slope of the corrected starts since it began
   * @param mannKendallP two-sided chance of a trend like that in starts without one
   */
  public record Drift(
      double pctPerYear,
      double low,
      double high,
      Instant begin,
      double chance,
      double senPctPerYear,
      double mannKendallP) {}

  /**
   * The limit, where the figure stands to it, and when it is reached.
   *
   * @param value of the limit, in the figure's unit
   * @param upper whether values above it are beyond it
   * @param now the figure in usual conditions; NaN where too few starts tell
   * @param beyondSince first start from which on the figure has been beyond the limit
   * @param lately how many of the latest starts were beyond it, as measured
   * @param latest how many those are
   * @param reached when, or nothing where it is not in sight or already behind
   */
  public record LimitWatch(
      double value,
      boolean upper,
      double now,
      Optional<Instant> beyondSince,
      int lately,
      int latest,
      Optional<Reached> reached) {}

  /**
   * When the figure reaches its limit in usual conditions.
   *
   * @param date even chance before and after
   * @param low 5 %
   * @param high 95 %; nothing where it may as well never be
   */
  public record Reached(Instant date, Instant low, Optional<Instant> high) {}

  /**
   * One start in the record.
   *
   * @param raw as measured
   * @param value in usual conditions
   * @param usual the model's value there
   */
  public record Point(Instant at, double raw, double value, double usual) {}
}
