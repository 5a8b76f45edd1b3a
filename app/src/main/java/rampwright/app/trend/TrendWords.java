package rampwright.app.trend;

import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Optional;
import rampwright.app.trend.FigureTrend.Baseline;
import rampwright.app.trend.FigureTrend.Drift;
import rampwright.app.trend.FigureTrend.Step;

/** What a state rests on, in a sentence. */
final class TrendWords {
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("yyyy-MM-dd", Locale.ROOT).withZone(ZoneOffset.UTC);

  private TrendWords() {}

  static String why(
      TrendState state, Baseline baseline, Optional<Step> step, Optional<Drift> drift, int n) {
    if (state == TrendState.DRIFT) {
      Drift d = drift.orElseThrow();
      return String.format(
          Locale.ROOT,
          "%+.1f %% a year since about %s (5 to 95 %%: %+.1f to %+.1f), chance %.0f %%; Sen's slope"
              + " %+.1f, Mann-Kendall p %.2g",
          d.pctPerYear(),
          DAY.format(d.begin()),
          d.low(),
          d.high(),
          100 * d.chance(),
          d.senPctPerYear(),
          d.mannKendallP());
    }
    if (state == TrendState.STEP) {
      Step s = step.orElseThrow();
      return String.format(
          Locale.ROOT,
          "%+.1f %% from %s on (between %s and %s), chance %.0f %%, against %d starts before",
          s.sizePct(),
          DAY.format(s.at()),
          DAY.format(s.low()),
          DAY.format(s.high()),
          100 * s.chance(),
          baseline.n());
    }
    return String.format(Locale.ROOT, "no change in %d starts beyond their scatter", n);
  }
}
