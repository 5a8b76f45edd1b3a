package rampwright.app.cli;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.app.envelope.Corridor;
import rampwright.app.envelope.CorridorCheck;
import rampwright.app.envelope.Limit;
import rampwright.app.envelope.LimitCheck;
import rampwright.app.envelope.Verdict;

/** A verdict in words. */
final class VerdictText {
  private VerdictText() {}

  static void print(Screen screen, String title, Verdict verdict) {
    screen.line("");
    String against = verdict.why();
    screen.line(
        title
            + ": "
            + verdict.word().toUpperCase(Locale.ROOT)
            + (against == null ? "" : ": " + against));
    TextTable table =
        new TextTable("  ", "lrlll", "asked", "value", "allowed", "margin", "verdict");
    for (LimitCheck check : verdict.limits()) {
      Limit limit = check.limit();
      Double value = check.value();
      table.row(
          limit.figure().label(),
          value == null
              ? "-"
              : ValueText.value(value, check.uncertainty()) + unit(limit.figure().unit()),
          allowed(limit),
          value == null ? why(check.why()) : margin(limit, value, check.marginPct()),
          word(check.met()) + (check.isClose() ? ", closer than its uncertainty" : ""));
    }
    for (CorridorCheck check : verdict.corridors()) {
      Corridor corridor = check.corridor();
      Double value = check.value();
      table.row(
          corridor.channel().key() + " corridor, " + corridor.part().key(),
          value == null ? "-" : ValueText.value(value, null),
          bound(check),
          corridorMargin(check),
          word(check.met()));
    }
    table.lines().forEach(screen::line);
  }

  /** The verdict in one phrase: the word, and what decides it. */
  static String brief(@Nullable Verdict verdict) {
    if (verdict == null) {
      return "-";
    }
    String decides =
        verdict.limits().stream()
            .filter(check -> !Boolean.TRUE.equals(check.met()))
            .filter(check -> !(verdict instanceof Verdict.Missed) || check.met() != null)
            .map(check -> check.limit().figure().label())
            .reduce((a, b) -> a + ", " + b)
            .orElse(verdict.why() == null ? "" : "full speed");
    String word = verdict instanceof Verdict.Missed ? "MISSED" : verdict.word();
    return decides.isEmpty() ? word : word + ": " + decides;
  }

  private static String word(@Nullable Boolean met) {
    return met == null ? "not assessable" : met ? "met" : "MISSED";
  }

  private static String allowed(Limit limit) {
    Double min = limit.min();
    Double max = limit.max();
    String unit = unit(limit.figure().unit());
    if (min == null) {
      return "at most " + ValueText.value(max == null ? 0 : max, null) + unit;
    }
    return max == null
        ? "at least " + ValueText.value(min, null) + unit
        : ValueText.value(min, null) + " to " + ValueText.value(max, null) + unit;
  }

  private static String margin(Limit limit, double value, @Nullable Double marginPct) {
    if (marginPct == null) {
      return "-";
    }
    if (marginPct >= 0) {
      return ValueText.percent(marginPct) + " % inside";
    }
    Double max = limit.max();
    boolean above = max != null && value > max;
    return ValueText.percent(-marginPct) + " % " + (above ? "above" : "below");
  }

  private static String bound(CorridorCheck check) {
    Double bound = check.bound();
    Double atS = check.atS();
    return bound == null || atS == null
        ? "-"
        : ValueText.value(bound, null) + " at " + ValueText.timeS(atS) + " s";
  }

  private static String corridorMargin(CorridorCheck check) {
    Double margin = check.marginPct();
    if (margin == null) {
      return why(check.why());
    }
    String text = ValueText.percent(Math.abs(margin)) + (margin < 0 ? " % outside" : " % inside");
    return check.why() == null ? text : text + " (" + check.why() + ")";
  }

  private static String why(@Nullable String why) {
    return why == null ? "-" : why;
  }

  private static String unit(String unit) {
    return unit.isEmpty() ? "" : " " + unit;
  }
}
