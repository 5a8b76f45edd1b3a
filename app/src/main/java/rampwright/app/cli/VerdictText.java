package rampwright.app.cli;

import java.util.ArrayList;
import java.util.List;
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
        new TextTable("  ", "lrlwl", "asked", "value", "allowed", "margin", "verdict");
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
          word(check.met()));
      table.under(check.isClose() ? "nearer to the limit than its uncertainty" : null);
    }
    for (CorridorCheck check : verdict.corridors()) {
      Corridor corridor = check.corridor();
      Double value = check.value();
      table.row(
          name(corridor),
          value == null ? "-" : ValueText.value(value, null) + unit(corridor),
          bound(check),
          corridorMargin(check),
          word(check.met()));
      table.under(check.marginPct() == null ? null : check.why());
    }
    screen.table(table);
  }

  /** The verdict in a word; a dash where there is none. */
  static String word(@Nullable Verdict verdict) {
    return verdict == null ? "-" : word(verdict.met());
  }

  /** What decides a verdict that is not met, limits and corridors by name; null when it is met. */
  static @Nullable String decisive(@Nullable Verdict verdict) {
    if (verdict == null || verdict instanceof Verdict.Met) {
      return null;
    }
    boolean missed = verdict instanceof Verdict.Missed;
    List<String> names = new ArrayList<>();
    if (verdict.why() != null) {
      names.add(verdict.why());
    }
    for (LimitCheck check : verdict.limits()) {
      if (missed ? Boolean.FALSE.equals(check.met()) : check.met() == null) {
        names.add(check.limit().figure().label());
      }
    }
    for (CorridorCheck check : verdict.corridors()) {
      if (missed ? Boolean.FALSE.equals(check.met()) : check.met() == null) {
        names.add(name(check.corridor()));
      }
    }
    return (missed ? "missed: " : "not assessable: ") + String.join("; ", names);
  }

  private static String unit(Corridor corridor) {
    return corridor.channel() == Corridor.Channel.SPEED_PCT ? " %" : "";
  }

  private static String name(Corridor corridor) {
    String channel = corridor.channel() == Corridor.Channel.SPEED_PCT ? "speed" : "current";
    return channel + " corridor of the " + corridor.part().key();
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
    return ValueText.percent(Math.abs(margin)) + (margin < 0 ? " % outside" : " % inside");
  }

  private static String why(@Nullable String why) {
    return why == null ? "-" : why;
  }

  private static String unit(String unit) {
    return unit.isEmpty() ? "" : " " + unit;
  }
}
