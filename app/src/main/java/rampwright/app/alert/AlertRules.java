package rampwright.app.alert;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import rampwright.app.trend.AssetTrend;
import rampwright.app.trend.FigureTrend;
import rampwright.app.trend.FigureTrend.LimitWatch;
import rampwright.app.trend.LimitWords;
import rampwright.app.trend.TrendState;

/**
 * From trends to alerts. A change raises one from {@link FigureTrend#ALERT_FROM} on and holds it as
 * long as the trend says the change; it is quiet when the trend no longer does. A limit raises one
 * when the usual value or three of the latest ten starts are beyond it. A limit ahead raises one
 * when its most likely day is near. All thresholds: common practice, no source; their false alarms
 * and delays are measured on simulated years.
 */
public final class AlertRules {
  /** Starts without a change after which its alert is cleared. */
  static final int QUIET_STARTS = 8;

  private static final String ABOVE = " above its limit";
  private static final String BELOW = " below its limit";
  private static final String AHEAD = " nears its limit";

  /** Latest starts beyond a limit that raise an alert. */
  private static final int SOME = 3;

  /** A limit ahead is quiet once it is this much farther than what raises it. */
  private static final double FARTHER = 1.5;

  /** What says the same as another figure in another unit, or is no matter of the motor. */
  private static final Set<String> NOT_WATCHED =
      Set.of(
          "peak_current_A",
          "rms_current_A",
          "rms_current_ratio",
          "i2t_A2s",
          "crest_current_A",
          "motor_heat_cold_pct",
          "motor_heat_hot_pct",
          "voltage_before_V",
          "voltage_min_V",
          "apparent_power_VA");

  private final Duration within;
  private final Instant now;

  /**
   * Rules.
   *
   * @param within a limit this near raises an alert
   */
  public AlertRules(Duration within, Instant now) {
    this.within = within;
    this.now = now;
  }

  /**
   * How every subject of an asset's figures stands.
   *
   * @param noted figures whose limits the logbook knows, those taken back included. Of another one
   *     without a limit nothing is known: it was asked with a limit once and now without, and an
   *     alert of then holds
   */
  public List<Condition> of(AssetTrend asset, Set<String> noted) {
    LimitWords words = new LimitWords(asset.facts().zone());
    List<Condition> conditions = new ArrayList<>();
    for (FigureTrend figure : asset.figures()) {
      if (!NOT_WATCHED.contains(figure.figure())) {
        conditions.add(changed(figure, words, 1));
        conditions.add(changed(figure, words, -1));
      }
      Optional<LimitWatch> watched = figure.limit();
      watched.ifPresent(watch -> limit(figure, watch, words, conditions));
      if (watched.isEmpty() && !noted.contains(figure.figure())) {
        continue;
      }
      if (watched.isEmpty()) {
        conditions.add(quiet(figure.figure() + AHEAD));
      }
      // the other side is farther off, or is no limit any more
      if (watched.isEmpty() || watched.get().upper()) {
        conditions.add(quiet(figure.figure() + BELOW));
      }
      if (watched.isEmpty() || !watched.get().upper()) {
        conditions.add(quiet(figure.figure() + ABOVE));
      }
    }
    return conditions;
  }

  private static Condition quiet(String subject) {
    return new Condition(subject, Condition.Level.QUIET, "", "");
  }

  private static Condition changed(FigureTrend figure, LimitWords words, int side) {
    String subject = figure.figure() + (side > 0 ? " rises" : " falls");
    boolean there =
        (figure.state() == TrendState.STEP || figure.state() == TrendState.DRIFT)
            && size(figure) * side > 0;
    Condition.Level level =
        !there
            ? Condition.Level.QUIET
            : figure.chance() >= FigureTrend.ALERT_FROM
                ? Condition.Level.RAISES
                : Condition.Level.HOLDS;
    return new Condition(
        subject,
        level,
        subject
            + ": "
            + words.change(figure)
            + " since "
            + words.since(figure)
            + ", chance "
            + LimitWords.sure(figure),
        QUIET_STARTS
            + " further starts show no change, or work on the machine or new settings begin a new"
            + " baseline");
  }

  private static double size(FigureTrend figure) {
    return figure
        .drift()
        .map(FigureTrend.Drift::pctPerYear)
        .or(() -> figure.step().map(FigureTrend.Step::sizePct))
        .orElse(0.0);
  }

  private void limit(
      FigureTrend figure, LimitWatch watch, LimitWords words, List<Condition> conditions) {
    String side = watch.upper() ? ABOVE : BELOW;
    boolean beyond = watch.beyondSince().isPresent() || watch.lately() >= SOME;
    boolean none = watch.beyondSince().isEmpty() && watch.lately() == 0 && watch.latest() >= SOME;
    conditions.add(
        new Condition(
            figure.figure() + side,
            beyond ? Condition.Level.RAISES : none ? Condition.Level.QUIET : Condition.Level.HOLDS,
            figure.figure() + ": " + words.limit(figure),
            "none of the latest starts is beyond the limit, nor is the usual value"));
    Optional<Instant> day = watch.reached().map(FigureTrend.Reached::date);
    Duration ahead = day.map(d -> Duration.between(now, d)).orElse(within.multipliedBy(100));
    boolean near = day.isPresent() && ahead.compareTo(within) <= 0;
    boolean far = ahead.toSeconds() > FARTHER * within.toSeconds();
    conditions.add(
        new Condition(
            figure.figure() + AHEAD,
            near ? Condition.Level.RAISES : far ? Condition.Level.QUIET : Condition.Level.HOLDS,
            figure.figure() + ": " + words.limit(figure),
            String.format(
                Locale.ROOT,
                "its most likely day is more than %.0f days away",
                FARTHER * within.toDays())));
  }

  /** Whether a quiet subject's alert is cleared by now. */
  public static boolean isCleared(AssetTrend asset, Condition condition, Instant raised) {
    String figure = condition.subject().substring(0, condition.subject().indexOf(' '));
    boolean changeOnly =
        condition.subject().endsWith(" rises") || condition.subject().endsWith(" falls");
    if (!changeOnly || asset.marks().stream().anyMatch(mark -> mark.isNewSince(raised))) {
      return true;
    }
    return asset.figures().stream()
        .filter(trend -> trend.figure().equals(figure))
        .anyMatch(
            trend ->
                trend.corrected().stream().filter(point -> point.at().isAfter(raised)).count()
                    >= QUIET_STARTS);
  }
}
