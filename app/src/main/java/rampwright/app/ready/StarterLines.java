package rampwright.app.ready;

import static rampwright.app.ready.ReadyLine.State.HOLD;
import static rampwright.app.ready.ReadyLine.State.LOOK;
import static rampwright.app.ready.ReadyLine.State.OK;
import static rampwright.app.ready.ReadyNumber.text;

import java.util.List;
import rampwright.analysis.heat.RatingIndex;
import rampwright.analysis.heat.TripClass;
import rampwright.app.asset.Asset;
import rampwright.app.asset.Starter;

/** Whether the starter is big enough for the motor as it is wired. */
final class StarterLines {
  private StarterLines() {}

  static void add(Asset asset, List<ReadyLine> lines) {
    Starter starter = asset.starter();
    if (starter == null) {
      lines.add(
          ReadyLine.of(
              "starter", LOOK, "the sheet", "no [starter] on the sheet: nothing of it is checked"));
      return;
    }
    boolean inside = starter.wiring() == Starter.Wiring.INSIDE_DELTA;
    double lineA = starter.ratedCurrentA() * starter.lineOverStarter();
    double share = lineA / asset.motor().ratedCurrentA();
    lines.add(
        ReadyLine.of(
            "starter current",
            share >= 1 ? OK : share >= 0.95 ? LOOK : HOLD,
            "rated operational current not below the motor's (IEC 60947-4-2); inside the delta sqrt(3)",
            text(
                "%s A%s for a motor of %s A: %s %% of it",
                starter.ratedCurrentA(),
                inside ? text(" inside the delta, %s A in the line,", lineA) : "",
                asset.motor().ratedCurrentA(),
                100 * share)));
    lines.add(
        ReadyLine.of(
            "wiring",
            inside ? LOOK : OK,
            "current of a pole = line current / sqrt(3) inside a delta",
            inside
                ? text(
                    "inside the delta: six motor ends, each pole carries %s A at rated load; settings in"
                        + " multiples of the starter's rating need the factor, a wrong pair gives a"
                        + " short or the wrong rotation",
                    asset.motor().ratedCurrentA() / Math.sqrt(3))
                : "in line: three leads, the starter carries the line current"));
    lines.add(index(starter));
    lines.add(trip(starter));
  }

  private static ReadyLine index(Starter starter) {
    String rule = "IEC 60947-4-2, utilisation category and rating index (from memory)";
    String given = starter.ratingIndex();
    if (given == null) {
      return ReadyLine.of(
          "rating index",
          LOOK,
          rule,
          "not given: the starter's own rest time is not known; copy it from its plate");
    }
    try {
      RatingIndex index = RatingIndex.parse(given);
      Double rated = index.ratedA();
      boolean differs = rated != null && Math.abs(rated / starter.ratedCurrentA() - 1) > 0.01;
      return ReadyLine.of(
          "rating index",
          differs ? LOOK : OK,
          rule,
          text(
              "%s: %s x for %s s, %s starts an hour%s",
              given,
              index.overload(),
              index.overloadS(),
              index.cyclesPerHour(),
              differs
                  ? text("; it is for %s A, the sheet says %s A", rated, starter.ratedCurrentA())
                  : ""));
    } catch (IllegalArgumentException e) {
      return ReadyLine.of("rating index", LOOK, rule, String.valueOf(e.getMessage()));
    }
  }

  private static ReadyLine trip(Starter starter) {
    String rule = "IEC 60947-4-1, trip classes (from memory)";
    String given = starter.tripClass();
    if (given == null) {
      return ReadyLine.of(
          "trip class",
          LOOK,
          rule,
          "not given: whether the overload relay lets it start is not known");
    }
    TripClass found = TripClass.parse(given);
    return found == null
        ? ReadyLine.of(
            "trip class",
            LOOK,
            rule,
            text("\"%s\" is no class; expected 5, 10A, 10, 20, 30, 40, or one with E", given))
        : ReadyLine.of(
            "trip class",
            OK,
            rule,
            text(
                "class %s: trips at 7.2 x its setting after %s to %s s from cold",
                found.name(), found.fastestS(), found.slowestS()));
  }
}
