package rampwright.app.cli;

import java.time.Instant;
import java.util.Locale;
import rampwright.analysis.heat.HeatPart;
import rampwright.analysis.heat.HeatStanding;
import rampwright.analysis.heat.StartHeat;
import rampwright.app.result.HeatResult;
import rampwright.app.wording.ValueText;

/** A heat account for people. */
public final class HeatText {
  private static final int STARTS_SHOWN = 12;

  private HeatText() {}

  /** The answer in one line. */
  public static String line(HeatResult result) {
    HeatStanding standing = result.standing();
    Double waitS = standing.waitS();
    HeatPart.Kind ruledBy = standing.ruledBy();
    if (waitS == null) {
      return "no next start to be had: " + standing.why();
    }
    if (waitS <= 0 || ruledBy == null) {
      return "the next start is allowed now"
          + (standing.running() ? " (once the motor stands)" : "");
    }
    HeatPart part = standing.part(ruledBy);
    String word =
        ruledBy == HeatPart.Kind.ROTOR && part != null && part.text().startsWith("hot")
            ? "rotor, hot restart"
            : ruledBy.key();
    return "next start allowed at "
        + result.site().near(result.at(waitS), result.asOf())
        + " (in "
        + duration(waitS)
        + (standing.running() ? " once the motor stands" : "")
        + "): "
        + word
        + starterAlone(standing, ruledBy);
  }

  private static String starterAlone(HeatStanding standing, HeatPart.Kind ruledBy) {
    HeatPart starter = standing.part(HeatPart.Kind.STARTER);
    Double waitS = starter == null ? null : starter.waitS();
    if (waitS == null || ruledBy == HeatPart.Kind.STARTER) {
      return "";
    }
    return waitS <= 0
        ? "; the starter alone would allow it now"
        : "; the starter alone would allow it in " + duration(waitS);
  }

  /** The whole account; with the source of every rule where wanted. */
  static void print(Screen screen, HeatResult result, boolean sources) {
    HeatStanding standing = result.standing();
    screen.line(
        result.asset().asset().name() + ": heat account at " + result.site().text(result.asOf()));
    screen.prose("  ", line(result));
    HeatPart.Kind ruling = standing.ruledBy();
    if (ruling != null) {
      screen.prose("  ", "rule: " + ruling.source());
    }
    screen.line("");
    TextTable parts =
        new TextTable("  ", "lrrrl", "rule", "in use", "as stated", "next start in", "how");
    for (HeatPart part : standing.parts()) {
      Double stated = part.statedPct();
      Double waitS = part.waitS();
      parts.row(
          part.kind().key(),
          waitS == null && part.usedPct() == 0 ? "" : percent(part.usedPct()),
          stated == null ? "" : percent(stated),
          waitS == null ? "-" : waitS <= 0 ? "now" : duration(waitS),
          part.text());
    }
    screen.table(parts);
    if (sources) {
      for (HeatPart part : standing.parts()) {
        screen.prose("  ", part.kind().key() + ": " + part.kind().source());
      }
    }
    screen.line("");
    starts(screen, result);
    screen.line(
        standing.startsPerHour() <= 0
            ? "Such starts cannot be repeated: one takes the whole allowance."
            : String.format(
                Locale.ROOT,
                "Such starts for ever: at most %.3g an hour, %s of rest between.",
                standing.startsPerHour(),
                duration(standing.restS())));
    if (standing.hotAssumed()) {
      screen.prose(
          "",
          "Before the first record nothing is known: the motor was taken to be hot from rated running"
              + " (if it was seen cold: --cold-at TIME --by NAME).");
    }
    screen.prose(
        "",
        "Starts nobody recorded are not in the account unless somebody tells of them (--note-start"
            + " TIME --by NAME).");
    result.remarks().forEach(remark -> screen.prose("  ", "mind: " + remark));
    screen.line("");
    screen.prose(
        "",
        "This is a reckoning from traces, no protective device; the makers' rest times and local"
            + " codes come first.");
  }

  private static void starts(Screen screen, HeatResult result) {
    HeatStanding standing = result.standing();
    if (standing.starts().isEmpty()) {
      screen.line("No recorded start still counts.");
      return;
    }
    int from = Math.max(0, standing.starts().size() - STARTS_SHOWN);
    if (from > 0) {
      screen.line("The last " + STARTS_SHOWN + " of " + standing.starts().size() + " starts:");
    }
    TextTable table =
        new TextTable(
            "  ",
            "lllrrrrrl",
            "start",
            "at",
            "ended",
            "rotor before",
            "took",
            "stator took",
            "starter duty",
            "relay margin",
            "in time");
    for (StartHeat start : standing.starts().subList(from, standing.starts().size())) {
      Double relay = start.relayHighest();
      table.row(
          start.name(),
          moment(result, result.at(start.atS())) + " (" + result.datedBy().get(start.name()) + ")",
          start.outcome(),
          percent(100 * start.before().rotor()),
          percent(100 * start.rotorAdded()),
          percent(100 * start.statorAdded()),
          start.duty() > 0 ? percent(100 * start.duty()) : "",
          relay == null ? "" : relayMargin(start, relay),
          inTime(start));
    }
    screen.table(table);
    screen.line("");
  }

  /** What the strictest relay of the class had left; where it had nothing, what the laxest had. */
  private static String relayMargin(StartHeat start, double highest) {
    if (highest < 1) {
      return percent(100 * (1 - highest));
    }
    Double lowest = start.relayLowest();
    return lowest != null && lowest >= 1 ? "trips" : "may trip";
  }

  private static String inTime(StartHeat start) {
    HeatPart.Kind ruledBy = start.ruledBy();
    if (ruledBy == null) {
      return "yes";
    }
    Double soonS = start.tooSoonByS();
    return soonS == null
        ? "NO: " + ruledBy.key() + " allowed none"
        : "NO: " + duration(soonS) + " too soon for " + ruledBy.key();
  }

  static String percent(double value) {
    return String.format(Locale.ROOT, Math.abs(value) < 10 ? "%.1f %%" : "%.0f %%", value);
  }

  private static String moment(HeatResult result, Instant at) {
    return result.site().near(at, result.asOf());
  }

  static String duration(double lastsS) {
    return ValueText.duration(lastsS);
  }
}
