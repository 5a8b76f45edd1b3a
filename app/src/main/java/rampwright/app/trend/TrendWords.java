package rampwright.app.trend;

import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Optional;
import rampwright.app.trend.FigureTrend.Baseline;
import rampwright.app.trend.FigureTrend.Drift;
import rampwright.app.trend.FigureTrend.Step;

/** What a state rests on, in a sentence. */
final class TrendWords {
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("yyyy-MM-dd", Locale.ROOT);

  private final DateTimeFormatter day;

  /**
   * Words.
   *
   * @param zone of the days in them
   */
  TrendWords(ZoneId zone) {
    day = DAY.withZone(zone);
  }

  String why(
      TrendState state, Baseline baseline, Optional<Step> step, Optional<Drift> drift, int n) {
    if (state == TrendState.DRIFT) {
      Drift d = drift.orElseThrow();
      return String.format(
          Locale.ROOT,
          "%+.1f %% a year since about %s (5 to 95 %%: %+.1f to %+.1f), chance %s; Sen's slope"
              + " %+.1f, Mann-Kendall p %.2g",
          d.pctPerYear(),
          day.format(d.begin()),
          d.low(),
          d.high(),
          LimitWords.chance(d.chance()),
          d.senPctPerYear(),
          d.mannKendallP());
    }
    if (state == TrendState.STEP) {
      Step s = step.orElseThrow();
      return String.format(
          Locale.ROOT,
          "%+.1f %% from %s on (between %s and %s), chance %s, against %d starts before; Pettitt p"
              + " %.2g",
          s.sizePct(),
          day.format(s.at()),
          day.format(s.low()),
          day.format(s.high()),
          LimitWords.chance(s.chance()),
          baseline.n(),
          s.pettittP());
    }
    return "no change in " + n + " starts beyond their scatter";
  }
}
