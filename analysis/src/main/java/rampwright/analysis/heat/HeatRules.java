package rampwright.analysis.heat;

import static rampwright.analysis.heat.HeatPart.plain;
import static rampwright.analysis.heat.HeatPart.text;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Asks every rule for its word at a moment, and takes the strictest. */
final class HeatRules {
  /** The next start is reckoned as the largest of so many last ones. */
  private static final int LOOKED_BACK = 3;

  /**
   * Below this level a motor counts as cold: a tenth of its allowance. Common practice, no source.
   */
  static final double COLD_LEVEL = 0.1;

  private final HeatPlan plan;
  private final MotorHeat motor;
  private final HeatModel cautious;

  HeatRules(HeatPlan plan, HeatModel cautious) {
    this.plan = plan;
    this.motor = plan.motor();
    this.cautious = cautious;
  }

  /** What the walk found at a moment. */
  record Moment(
      double nowS,
      Levels stated,
      Levels level,
      double relayHighest,
      double currentCeasedS,
      boolean running,
      boolean hotAssumed) {}

  /** What the next start is reckoned to take, and whether that is more than an assumption. */
  private record Next(double rotor, double stator, double duty, double relay, boolean known) {}

  HeatStanding standing(
      Moment at,
      List<StartHeat> starts,
      List<StarterDuty.Load> loads,
      List<HeatStanding.Point> curve) {
    Next next = next(starts);
    List<HeatPart> parts = new ArrayList<>();
    parts.add(body(HeatPart.Kind.ROTOR, at.level().rotor(), at.stated().rotor(), next.rotor()));
    parts.add(body(HeatPart.Kind.STATOR, at.level().stator(), at.stated().stator(), next.stator()));
    StarterDuty starter = plan.starter();
    if (starter != null) {
      parts.add(starterPart(at, starter, starts, loads, next));
    }
    if (plan.relay() != null) {
      parts.add(relayPart(at, plan.relay(), next));
    }
    List<Double> began = starts.stream().map(StartHeat::atS).toList();
    parts.add(perHour(at, began));
    parts.add(inSuccession(at, starts));
    if (plan.rules().restS() > 0) {
      parts.add(rest(at));
    }
    return strictest(at, parts, starts, curve, next);
  }

  private HeatStanding strictest(
      Moment at,
      List<HeatPart> parts,
      List<StartHeat> starts,
      List<HeatStanding.Point> curve,
      Next next) {
    double wait = 0;
    HeatPart ruling = null;
    HeatPart never = null;
    for (HeatPart part : parts) {
      Double one = part.waitS();
      if (one == null) {
        if (part.rules() && never == null) {
          never = part;
        }
      } else if (one > wait) {
        wait = one;
        ruling = part;
      }
    }
    double restS = restS(next);
    double perHour = Math.min(plan.rules().perHour(), 3600 / restS);
    StarterDuty starter = plan.starter();
    RatingIndex index = starter == null ? null : starter.index();
    if (index != null) {
      perHour = Math.min(perHour, index.cyclesPerHour());
    }
    return new HeatStanding(
        at.nowS(),
        parts,
        never != null ? null : Double.valueOf(wait),
        never != null ? never.kind() : ruling == null ? null : ruling.kind(),
        never == null ? null : never.kind().key() + ": " + never.text(),
        perHour,
        Math.max(restS, plan.rules().perHour() < 1 ? 3600 / plan.rules().perHour() : 0),
        starts,
        at.running(),
        at.hotAssumed(),
        curve,
        cautious.standingS(),
        motor.coolingS().stated(),
        next.rotor());
  }

  /** Rest between starts repeated for ever: motor heat at standstill, starter, table. */
  private double restS(Next next) {
    double restS = plan.rules().restS();
    if (next.known()) {
      restS = Math.max(restS, ThermalEquation.repeatedRestS(next.rotor(), cautious.standingS()));
      restS = Math.max(restS, ThermalEquation.repeatedRestS(next.stator(), cautious.standingS()));
    }
    StarterDuty starter = plan.starter();
    return starter == null ? restS : Math.max(restS, starter.offS() * Math.max(1, next.duty()));
  }

  private Next next(List<StartHeat> starts) {
    double rotor = 0;
    double stator = 0;
    double duty = 0;
    double relay = 0;
    // What a person told of is taken at the worst; measured ones know better what a start takes.
    List<StartHeat> known = starts.stream().filter(StartHeat::measured).toList();
    List<StartHeat> last = known.isEmpty() ? starts : known;
    if (!last.isEmpty()) {
      for (StartHeat start : last.subList(Math.max(0, last.size() - LOOKED_BACK), last.size())) {
        rotor = Math.max(rotor, start.rotorAdded());
        stator = Math.max(stator, start.statorAdded());
        duty = Math.max(duty, start.duty());
        relay = Math.max(relay, start.relayAdded());
      }
    }
    TripClass tripClass = plan.relay();
    RelayModel model = tripClass == null ? null : new RelayModel(tripClass);
    StarterDuty starter = plan.starter();
    double predictedRotor = 0;
    double predictedStator = 0;
    double predictedDuty = 0;
    double predictedRelay = 0;
    for (HeatPiece piece : plan.expected()) {
      predictedRotor += cautious.rotorAdded(piece);
      predictedStator += cautious.statorAdded(piece);
      predictedDuty += starter == null ? 0 : starter.added(piece);
      predictedRelay = model == null ? 0 : model.highest(predictedRelay, piece);
    }
    if (starts.isEmpty() && plan.expected().isEmpty()) {
      // Nothing is known of the start: it is let to take what one hot start may.
      rotor = motor.hotAllowance();
    }
    return new Next(
        Math.max(rotor, predictedRotor),
        Math.max(stator, predictedStator),
        Math.max(duty, predictedDuty),
        Math.max(relay, predictedRelay),
        !starts.isEmpty() || !plan.expected().isEmpty());
  }

  private HeatPart body(HeatPart.Kind kind, double level, double statedLevel, double added) {
    boolean rotor = kind == HeatPart.Kind.ROTOR;
    Double waitS =
        added >= 1
            ? null
            : Double.valueOf(ThermalEquation.coolingTimeS(level, 1 - added, cautious.standingS()));
    String what = rotor ? "locked-rotor budget" : "stator's lasting limit";
    return new HeatPart(
        kind,
        100 * level,
        100 * statedLevel,
        waitS,
        added >= 1
            ? text("such a start takes %.0f %% of the %s, even from cold", 100 * added, what)
            : text(
                    "%s %.0f %% of the %s in use, the next start takes %.1f %%%s",
                    rotor ? (level > COLD_LEVEL ? "hot restart:" : "cold start:") : "",
                    100 * level,
                    what,
                    100 * added,
                    waitS != null && waitS > 0 ? "; cools at standstill" : "")
                .strip(),
        true);
  }

  private HeatPart starterPart(
      Moment at,
      StarterDuty starter,
      List<StartHeat> starts,
      List<StarterDuty.Load> loads,
      Next next) {
    RatingIndex index = starter.index();
    double waitS = 0;
    double used = 0;
    for (StarterDuty.Load load : loads) {
      double freeS = load.toS() + starter.offS() * Math.max(1, load.duty());
      if (freeS > at.nowS()) {
        waitS = Math.max(waitS, freeS - at.nowS());
        used += load.duty();
      }
    }
    if (index == null) {
      return unknownStarter(waitS);
    }
    if (index.category() == RatingIndex.Category.AC_53A) {
      if (!starts.isEmpty()) {
        StartHeat last = starts.get(starts.size() - 1);
        waitS = Math.max(waitS, last.atS() + index.cycleS() - at.nowS());
      }
      // It carries the running current: the off-time counts from where current ceases.
      waitS = Math.max(waitS, at.currentCeasedS() + index.offS() - at.nowS());
    }
    return new HeatPart(
        HeatPart.Kind.STARTER,
        100 * used,
        null,
        Math.max(0, waitS),
        text(
            "%s: %s x for %s s, then %.0f s without load%s",
            index.category().key(),
            plain(index.overload()),
            plain(index.overloadS()),
            index.offS(),
            next.duty() > 1
                ? text("; the last starts took %.0f %% of that duty", 100 * next.duty())
                : ""),
        true);
  }

  private static HeatPart unknownStarter(double waitS) {
    return new HeatPart(
        HeatPart.Kind.STARTER,
        100 * waitS / StarterDuty.UNKNOWN_OFF_S,
        null,
        waitS,
        text(
            "rating index not known: %.0f min without load between starts (common practice, no source);"
                + " the starter's plate may ask for less or more",
            StarterDuty.UNKNOWN_OFF_S / 60),
        true);
  }

  private HeatPart relayPart(Moment at, @Nullable TripClass tripClass, Next next) {
    if (tripClass == null) {
      throw new IllegalArgumentException("no trip class");
    }
    boolean never = next.relay() >= 1;
    double tau = new RelayModel(tripClass).coolingS();
    return new HeatPart(
        HeatPart.Kind.RELAY,
        100 * at.relayHighest(),
        null,
        never
            ? null
            : Double.valueOf(
                ThermalEquation.coolingTimeS(at.relayHighest(), 1 - next.relay(), tau)),
        never
            ? text(
                "a relay at the fast edge of class %s may trip on such a start even from cold",
                tripClass.name())
            : text(
                "class %s, fast edge: the next start takes %.0f %% of the way to a trip",
                tripClass.name(), 100 * next.relay()),
        false);
  }

  private HeatPart perHour(Moment at, List<Double> began) {
    StartRules rules = plan.rules();
    long counted = rules.counted(began, at.nowS());
    return new HeatPart(
        HeatPart.Kind.PER_HOUR,
        100 * counted / Math.max(1, Math.floor(rules.perHour() + 1e-9)),
        null,
        rules.waitS(began, at.nowS()),
        text(
            "%d recorded in the last %s, %s an hour allowed (%s%s)",
            counted,
            rules.perHour() < 1 ? text("%.0f min", 60 / rules.perHour()) : "hour",
            plain(rules.perHour()),
            rules.source(),
            rules.doubts().isEmpty() ? "" : "; " + rules.doubts()),
        true);
  }

  /**
   * Two starts in succession from cold or one from hot; a further one only when the motor is no
   * hotter than in steady rated running (IEC 60034-12, design N; from memory).
   */
  private HeatPart inSuccession(Moment at, List<StartHeat> starts) {
    Levels rated = cautious.running(1);
    StartHeat last = starts.isEmpty() ? null : starts.get(starts.size() - 1);
    boolean second =
        last != null && last.before().rotor() <= COLD_LEVEL && last.before().stator() <= COLD_LEVEL;
    double over =
        Math.max(
            at.level().rotor() / (motor.leastRunLevel() * rated.stator() / motor.statorRunLevel()),
            at.level().stator() / rated.stator());
    double waitS =
        second || over <= 1 + 1e-9
            ? 0
            : ThermalEquation.coolingTimeS(over, 1, cautious.standingS());
    return new HeatPart(
        HeatPart.Kind.IN_SUCCESSION,
        // One of two is in use.
        second ? 50 : 100 * over,
        null,
        waitS,
        text(
            "two from cold or one from hot, a further one no hotter than in rated running (IEC"
                + " 60034-12): now %s",
            second ? "the second from cold is free" : text("at %.0f %% of that", 100 * over)),
        true);
  }

  private HeatPart rest(Moment at) {
    double sinceS = at.nowS() - at.currentCeasedS();
    double restS = plan.rules().restS();
    return new HeatPart(
        HeatPart.Kind.REST,
        Math.max(0, 100 * (1 - sinceS / restS)),
        null,
        Math.max(0, restS - sinceS),
        text("%.0f s of rest before each start (%s)", restS, plan.rules().source()),
        true);
  }
}
