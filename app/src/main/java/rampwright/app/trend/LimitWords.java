package rampwright.app.trend;

import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

/** Where a figure stands to its limit, and how it changed, in few words. */
public final class LimitWords {
  private final DateTimeFormatter day;

  /**
   * Words.
   *
   * @param zone of the days in them
   */
  public LimitWords(ZoneId zone) {
    day = DateTimeFormatter.ofPattern("yyyy-MM-dd", Locale.ROOT).withZone(zone);
  }

  /** Empty where there is no limit. */
  public String limit(FigureTrend trend) {
    return trend.limit().map(this::words).orElse("");
  }

  private String words(FigureTrend.LimitWatch watch) {
    String limit = (watch.upper() ? "above " : "below ") + number(watch.value());
    if (watch.beyondSince().isPresent()) {
      return limit + " since " + day.format(watch.beyondSince().get());
    }
    String some =
        watch.lately() > 0
            ? watch.lately() + " of the last " + watch.latest() + " " + limit + "; "
            : "";
    if (watch.reached().isPresent()) {
      FigureTrend.Reached reached = watch.reached().get();
      return some
          + limit
          + " on "
          + day.format(reached.date())
          + " ("
          + day.format(reached.low())
          + " to "
          + reached.high().map(day::format).orElse("not in sight")
          + ")";
    }
    return some.isEmpty() ? limit + ": not in sight" : some.substring(0, some.length() - 2);
  }

  /** The change; empty where there is none. */
  public String change(FigureTrend trend) {
    return trend
        .drift()
        .map(d -> String.format(Locale.ROOT, "%+.1f %%/year", d.pctPerYear()))
        .or(() -> trend.step().map(s -> String.format(Locale.ROOT, "%+.1f %%", s.sizePct())))
        .orElse("");
  }

  /** Since when it is changed; empty where it is not. */
  public String since(FigureTrend trend) {
    boolean changed = trend.state() == TrendState.STEP || trend.state() == TrendState.DRIFT;
    return changed ? trend.since().map(day::format).orElse("") : "";
  }

  /** How sure the change is; empty where there is none. */
  public static String sure(FigureTrend trend) {
    return trend.chance() <= 0 ? "" : chance(trend.chance());
  }

  /** A chance in percent; never a full hundred. */
  static String chance(double chance) {
    return chance > 0.99 ? "> 99 %" : String.format(Locale.ROOT, "%.0f %%", 100 * chance);
  }

  /** What is usual; how many starts where too few tell. */
  public static String usual(FigureTrend trend) {
    return trend
        .baseline()
        .map(baseline -> number(baseline.median()))
        .orElse(trend.n() + (trend.n() == 1 ? " start" : " starts"));
  }

  private static String number(double value) {
    return String.format(Locale.ROOT, "%.4g", value)
        .replaceAll("(\\.\\d*?)0+$", "$1")
        .replaceAll("\\.$", "");
  }
}
