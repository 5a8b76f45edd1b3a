package rampwright.app.ready;

import static rampwright.app.ready.ReadyLine.State.HOLD;
import static rampwright.app.ready.ReadyLine.State.LOOK;
import static rampwright.app.ready.ReadyLine.State.OK;
import static rampwright.app.ready.ReadyNumber.text;

import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.heat.HeatAccount;
import rampwright.analysis.heat.HeatHistory;
import rampwright.analysis.heat.HeatModel;
import rampwright.analysis.heat.HeatPiece;
import rampwright.analysis.heat.HeatPlan;
import rampwright.analysis.heat.HeatStanding;
import rampwright.analysis.heat.MotorHeat;
import rampwright.analysis.heat.RelayModel;
import rampwright.analysis.heat.StarterDuty;
import rampwright.analysis.heat.StartsTable;
import rampwright.analysis.heat.TripClass;
import rampwright.app.asset.Asset;
import rampwright.app.asset.Load;
import rampwright.app.heat.HeatSheet;

/** What a start costs in heat, and how often it may be made. */
final class HeatLines {
  private static final double ROOM = 0.8;
  private static final double HOT = 0.95;

  private HeatLines() {}

  /** Without settings the rules on starts still stand. */
  static HeatStanding withoutSettings(Asset asset, List<ReadyLine> lines) {
    lines.add(
        ReadyLine.of(
            "settings",
            LOOK,
            "motor model",
            "no settings known: whether they start the load, and what it costs, is not checked; name"
                + " them with --settings FILE"));
    return withoutStart(asset, lines);
  }

  private static HeatStanding withoutStart(Asset asset, List<ReadyLine> lines) {
    HeatSheet sheet = HeatSheet.of(asset, List.of());
    HeatStanding standing = standing(sheet.plan());
    session(sheet, standing, false, lines);
    inertia(asset, lines);
    return standing;
  }

  static HeatStanding of(Readiness.Question question, RunUp run, List<ReadyLine> lines) {
    Asset asset = question.asset().asset();
    List<HeatPiece> hot = run.pieces(HOT);
    if (hot.isEmpty()) {
      lines.add(
          ReadyLine.of(
              "motor heat",
              LOOK,
              "i2t against locked-rotor time x current squared (analysis/docs/heat.md)",
              "no start is to be expected: what a failing one heats depends on how long it is let"));
      return withoutStart(asset, lines);
    }
    // What is held must be too much for the easier starts too.
    List<HeatPiece> sure = run.pieces(question.doubt());
    HeatSheet sheet = HeatSheet.of(asset, hot);
    HeatPlan plan = sheet.plan();
    boolean tooMuch = motor(asset, plan, hot, sure, lines);
    starter(plan, hot, sure, lines);
    relay(plan, hot, sure, lines);
    HeatStanding standing = standing(plan);
    session(sheet, standing, tooMuch, lines);
    inertia(asset, lines);
    return standing;
  }

  private static HeatStanding standing(HeatPlan plan) {
    return HeatAccount.at(plan, new HeatHistory(List.of(), List.of(0.0)), 0);
  }

  /** Whether a start is surely more than the motor has. */
  private static boolean motor(
      Asset asset,
      HeatPlan plan,
      List<HeatPiece> hot,
      List<HeatPiece> sure,
      List<ReadyLine> lines) {
    MotorHeat motor = plan.motor();
    double added = added(HeatModel.cautious(motor), hot);
    double share = motor.lockedHotS() / motor.lockedColdS();
    boolean known =
        asset.motor().lockedRotorTimeColdS() != null
            && asset.motor().lockedRotorCurrentRatio() != null;
    boolean tooMuch = known && added(HeatModel.stated(motor), sure) >= 1;
    lines.add(
        ReadyLine.of(
            "motor heat",
            added <= ROOM * share ? OK : tooMuch ? HOLD : LOOK,
            "i2t against locked-rotor time x current squared (analysis/docs/heat.md), 95 % start",
            text(
                "one start takes up to %s %% of the cold allowance, %s %% of the hot one%s%s",
                100 * added,
                100 * added / share,
                tooMuch
                    ? ": more than the motor has"
                    : added >= 1
                        ? ": it may be more than the motor has"
                        : added > share
                            ? ": no hot restart, only from cold"
                            : added > ROOM * share ? ": little is left after a hot one" : "",
                known || added <= ROOM * share
                    ? ""
                    : text(
                        "; reckoned with %s s locked at %s x for want of the maker's: ask him for"
                            + " locked_rotor_time_cold_s and _hot_s",
                        motor.lockedColdS(), motor.lockedRatio()))));
    return tooMuch;
  }

  private static double added(HeatModel model, List<HeatPiece> start) {
    return start.stream().mapToDouble(model::rotorAdded).sum();
  }

  private static void starter(
      HeatPlan plan, List<HeatPiece> hot, List<HeatPiece> sure, List<ReadyLine> lines) {
    StarterDuty starter = plan.starter();
    if (starter == null || starter.index() == null) {
      return;
    }
    double duty = hot.stream().mapToDouble(starter::added).sum();
    boolean tooMuch = sure.stream().mapToDouble(starter::added).sum() > 1;
    lines.add(
        ReadyLine.of(
            "starter duty",
            duty <= ROOM ? OK : tooMuch ? HOLD : LOOK,
            "rating index, IEC 60947-4-2; below X by current, above by its square (common practice, no"
                + " source), 95 % start",
            text(
                "one start takes up to %s %% of the rated duty%s",
                100 * duty,
                tooMuch
                    ? ": the starter is too small for it, or the start too long"
                    : duty > 1 ? ": it may be too much for the starter" : "")));
  }

  private static void relay(
      HeatPlan plan, List<HeatPiece> hot, List<HeatPiece> sure, List<ReadyLine> lines) {
    TripClass tripClass = plan.relay();
    if (tripClass == null) {
      return;
    }
    RelayModel relay = new RelayModel(tripClass);
    double fromCold = 0;
    double laxest = 0;
    double fromHot = RelayModel.runLevel();
    for (HeatPiece piece : sure) {
      laxest = relay.lowest(laxest, piece);
    }
    for (HeatPiece piece : hot) {
      fromCold = relay.highest(fromCold, piece);
      fromHot = relay.highest(fromHot, piece);
    }
    TripClass slower = tripClass.slower();
    String more = slower == null ? "" : text("; class %s trips later", slower.name());
    lines.add(
        ReadyLine.of(
            "trip class against the start",
            laxest >= 1 ? HOLD : fromCold >= 1 || fromHot >= 1 ? LOOK : OK,
            "thermal equation through the class's edges (IEC 60255-149, IEC 60947-4-1), set to rated"
                + " current, 95 % start",
            laxest >= 1
                ? text("any relay of class %s trips on such a start%s", tripClass.name(), more)
                : fromCold >= 1
                    ? text(
                        "a strict relay of class %s trips even from cold%s", tripClass.name(), more)
                    : fromHot >= 1
                        ? text(
                            "class %s has %s %% in hand from cold; after rated running a strict one may"
                                + " trip%s",
                            tripClass.name(), 100 * (1 - fromCold), more)
                        : text(
                            "class %s has %s %% in hand from cold, %s %% after rated running",
                            tripClass.name(), 100 * (1 - fromCold), 100 * (1 - fromHot))));
  }

  private static void session(
      HeatSheet sheet, HeatStanding standing, boolean tooMuch, List<ReadyLine> lines) {
    double perHour = standing.startsPerHour();
    lines.add(
        ReadyLine.of(
            "starts in a session",
            perHour <= 0 && tooMuch
                ? HOLD
                : perHour < 1 || !sheet.plan().rules().doubts().isEmpty() ? LOOK : OK,
            sheet.plan().rules().source()
                + "; motor, starter and rest rules of analysis/docs/heat.md; IEC 60034-12: two from cold"
                + " or one from hot",
            perHour <= 0
                ? (tooMuch
                    ? "one start takes the whole allowance"
                    : "cannot be told: reckoned cautiously one start may take the whole allowance")
                : text(
                    "for ever at most %s an hour with %s min between; from cold the motor stands two in"
                        + " succession%s%s",
                    perHour,
                    standing.restS() / 60,
                    starterRest(sheet.plan().starter()),
                    sheet.plan().rules().doubts().isEmpty()
                        ? ""
                        : "; " + sheet.plan().rules().doubts())));
  }

  private static String starterRest(@Nullable StarterDuty starter) {
    return starter == null
        ? ""
        : text(
            ", the starter %s min after each%s",
            starter.offS() / 60,
            starter.index() == null ? " (usual, its rating index is not known)" : "");
  }

  private static void inertia(Asset asset, List<ReadyLine> lines) {
    Load load = asset.load();
    Double given = load == null ? null : load.inertiaKgM2();
    if (given == null) {
      return;
    }
    double hp = 1000 * asset.motor().ratedPowerKw() / StartsTable.WATTS_PER_HP;
    int pairs =
        Math.max(
            1,
            (int)
                Math.floor(60 * asset.motor().ratedFrequencyHz() / asset.motor().ratedSpeedRpm()));
    double designN = StartsTable.designNInertiaKgM2(asset.motor().ratedPowerKw(), pairs);
    double nema =
        StartsTable.permissibleInertiaLbFt2(hp, 60 * asset.motor().ratedFrequencyHz() / pairs)
            * StartsTable.KGM2_PER_LBFT2;
    lines.add(
        ReadyLine.of(
            "load inertia",
            given <= designN ? OK : LOOK,
            "IEC 60034-12 design N, J = 0.04 P^0.9 p^2.5; NEMA MG 1, 12.54 (both from memory)",
            text(
                "%s kg m2; two cold starts or one hot are made for up to %s (IEC), %s (NEMA)%s",
                given,
                designN,
                nema,
                given <= designN ? "" : ": above, ask the maker how often it may be started")));
  }
}
