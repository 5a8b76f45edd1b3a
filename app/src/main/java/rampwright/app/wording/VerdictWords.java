package rampwright.app.wording;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.app.envelope.Corridor;
import rampwright.app.envelope.CorridorCheck;
import rampwright.app.envelope.Limit;
import rampwright.app.envelope.LimitCheck;
import rampwright.app.envelope.Verdict;

/** Verdicts, limits and margins in words. */
public final class VerdictWords {
  private VerdictWords() {}

  /** Met, missed or not assessable; what was missed stands out. */
  public static String word(@Nullable Boolean met) {
    return met == null ? "not assessable" : met ? "met" : "MISSED";
  }

  /** What decides a verdict that is not met, limits and corridors by name; null when it is met. */
  public static @Nullable String decisive(@Nullable Verdict verdict) {
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

  /** What a limit allows, with its unit. */
  public static String allowed(Limit limit) {
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

  /** The value that was held against a limit, with its unit; a dash where there is none. */
  public static String value(LimitCheck check) {
    Double value = check.value();
    return value == null
        ? "-"
        : ValueText.value(value, check.uncertainty()) + unit(check.limit().figure().unit());
  }

  /** How far a value is inside or outside, or why there is none. */
  public static String margin(LimitCheck check) {
    Double value = check.value();
    return value == null ? why(check.why()) : margin(check.limit(), value, check.marginPct());
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

  /** What a corridor watches. */
  public static String name(Corridor corridor) {
    String channel = corridor.channel() == Corridor.Channel.SPEED_PCT ? "speed" : "current";
    return channel + " corridor of the " + corridor.part().key();
  }

  /**
   * The channel's value where it came nearest to a corridor's bound; a dash where there is none.
   */
  public static String value(CorridorCheck check) {
    Double value = check.value();
    boolean speed = check.corridor().channel() == Corridor.Channel.SPEED_PCT;
    return value == null ? "-" : ValueText.value(value, null) + (speed ? " %" : "");
  }

  /** The bound it came nearest to, and when. */
  public static String bound(CorridorCheck check) {
    Double bound = check.bound();
    Double atS = check.atS();
    return bound == null || atS == null
        ? "-"
        : ValueText.value(bound, null) + " at " + ValueText.timeS(atS) + " s";
  }

  /** How far a channel stayed inside a corridor or left it, or why that cannot be told. */
  public static String margin(CorridorCheck check) {
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
