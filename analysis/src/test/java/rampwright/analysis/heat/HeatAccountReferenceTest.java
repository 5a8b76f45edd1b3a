package rampwright.analysis.heat;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Waits of the account against closed forms worked by hand. */
class HeatAccountReferenceTest {
  /** Rounding of exponentials over some hundred pieces. */
  private static final double EXACT_S = 1e-6;

  /** Gain of the cautious reading, squared. */
  private static final double GAIN = 1.02 * 1.02;

  /** Time constants in the cautious reading: 20 % above what the sheet says. */
  private static final double STANDING_S = 1.2 * 90 * 60;

  private static final double RUNNING_S = 1.2 * 30 * 60;

  private static final MotorHeat MOTOR =
      MotorHeat.of(new MotorHeat.Sheet(90e3, 400, 6.4, 6.0, 20.0, 8.0, 30.0, 90.0));

  private static HeatStretch start(double lastsS, double current) {
    return new HeatStretch(
        List.of(new HeatPiece(lastsS, HeatPiece.State.SLIP, current * current, current * current)),
        List.of(new HeatStretch.Start(0, 1, "completed", false)),
        false,
        0);
  }

  private static HeatPlan plan(double perHour) {
    return new HeatPlan(MOTOR, null, null, new StartRules(perHour, 0, "test", ""), List.of());
  }

  private static HeatHistory coldThen(HeatHistory.Dated... traces) {
    return new HeatHistory(List.of(traces), List.of(0.0));
  }

  /**
   * From cold, k starts at once of 0.3 of the budget each, then the wait until a further one fits:
   * tau ln(level / (1 - 0.3 gain)).
   */
  @Test
  void theWaitOfTheRotorIsTheClosedForm() {
    double takes = 0.3 * 36 * 20 / 9;
    double added = 0.3 * GAIN;
    HeatHistory history =
        coldThen(
            new HeatHistory.Dated("a", 0, start(takes, 3)),
            new HeatHistory.Dated("b", takes, start(takes, 3)),
            new HeatHistory.Dated("c", 2 * takes, start(takes, 3)));
    HeatStanding standing = HeatAccount.at(plan(100), history, 3 * takes);
    // dL/dt = q - L / tau over three starts on end.
    double rate = added / takes;
    double level = rate * RUNNING_S * (1 - Math.exp(-3 * takes / RUNNING_S));
    double expected = STANDING_S * Math.log(level / (1 - added));
    HeatPart rotor = standing.part(HeatPart.Kind.ROTOR);
    assertThat(rotor.usedPct()).isCloseTo(100 * level, within(1e-9));
    assertThat(rotor.waitS()).isCloseTo(expected, within(EXACT_S));
    assertThat(standing.starts()).hasSize(3);
    assertThat(standing.starts().get(0).rotorAdded()).isCloseTo(added, within(1e-12));
    // And when that time is over, the same account allows it.
    HeatStanding later = HeatAccount.at(plan(100), history, 3 * takes + expected + 0.01);
    assertThat(later.part(HeatPart.Kind.ROTOR).waitS()).isZero();
    HeatStanding sooner = HeatAccount.at(plan(100), history, 3 * takes + expected - 0.01);
    assertThat(sooner.part(HeatPart.Kind.ROTOR).waitS()).isCloseTo(0.01, within(EXACT_S));
  }

  /** Endless starts with the rest the account itself asks for end just at the limit. */
  @Test
  void startsRepeatedForEverWithTheRestAskedForKeepTheLimit() {
    double takes = 0.2 * 36 * 20 / 9;
    HeatHistory first = coldThen(new HeatHistory.Dated("0", 0, start(takes, 3)));
    double restS = HeatAccount.at(plan(100), first, takes).restS();
    List<HeatHistory.Dated> many = new ArrayList<>();
    for (int n = 0; n < 200; n++) {
      many.add(new HeatHistory.Dated("" + n, n * (takes + restS), start(takes, 3)));
    }
    double endS = 199 * (takes + restS) + takes;
    HeatStanding standing = HeatAccount.at(plan(100), new HeatHistory(many, List.of(0.0)), endS);
    // L = d / (1 - e), d and e as the running motor gives off during a start too.
    double added = 0.2 * GAIN / takes * RUNNING_S * (1 - Math.exp(-takes / RUNNING_S));
    double left = Math.exp(-takes / RUNNING_S - restS / STANDING_S);
    assertThat(standing.part(HeatPart.Kind.ROTOR).usedPct() / 100)
        .isCloseTo(added / (1 - left), within(1e-9))
        .isLessThan(1);
    assertThat(restS)
        .as("nothing given off during a start: -tau ln(1 - d)")
        .isCloseTo(-STANDING_S * Math.log(1 - 0.2 * GAIN), within(EXACT_S));
    assertThat(standing.startsPerHour()).isCloseTo(3600 / restS, within(1e-9));
  }

  /** Design N rule: two from cold, then no hotter than in rated running. */
  @Test
  void twoColdStartsOrOneHot() {
    double takes = 0.35 * 36 * 20 / 9;
    HeatHistory one = coldThen(new HeatHistory.Dated("a", 0, start(takes, 3)));
    HeatStanding afterOne = HeatAccount.at(plan(100), one, takes);
    assertThat(afterOne.part(HeatPart.Kind.IN_SUCCESSION).waitS()).isZero();
    HeatHistory two =
        coldThen(
            new HeatHistory.Dated("a", 0, start(takes, 3)),
            new HeatHistory.Dated("b", takes, start(takes, 3)));
    HeatStanding afterTwo = HeatAccount.at(plan(100), two, 2 * takes);
    double level = afterTwo.part(HeatPart.Kind.ROTOR).usedPct() / 100;
    double ratedRunning = 0.6 * GAIN;
    assertThat(afterTwo.part(HeatPart.Kind.IN_SUCCESSION).waitS())
        .isCloseTo(STANDING_S * Math.log(level / ratedRunning), within(EXACT_S));
    // Nothing known is one hot start.
    HeatStanding unknown = HeatAccount.at(plan(100), HeatHistory.UNKNOWN, 0);
    assertThat(unknown.hotAssumed()).isTrue();
    assertThat(unknown.waitS()).isZero();
    HeatHistory hot =
        new HeatHistory(List.of(new HeatHistory.Dated("a", 0, start(5, 3))), List.of());
    HeatStanding afterHot = HeatAccount.at(plan(100), hot, 5);
    assertThat(afterHot.part(HeatPart.Kind.IN_SUCCESSION).waitS()).isPositive();
  }

  /** AC-53b 3.5-30:330: the starter's own word is 330 s from the end of its load. */
  @Test
  void theStarterAsksForItsOffTime() {
    StarterDuty starter = new StarterDuty(RatingIndex.parse("AC-53b: 3.5-30:330"), 1);
    HeatPlan plan =
        new HeatPlan(MOTOR, starter, null, new StartRules(100, 0, "test", ""), List.of());
    HeatHistory history = coldThen(new HeatHistory.Dated("a", 0, start(10, 3.5)));
    HeatPart part = HeatAccount.at(plan, history, 60).part(HeatPart.Kind.STARTER);
    assertThat(part.waitS()).isCloseTo(10 + 330 - 60, within(EXACT_S));
    assertThat(part.usedPct()).isCloseTo(100.0 / 3, within(1e-9));
    assertThat(HeatAccount.at(plan, history, 341).part(HeatPart.Kind.STARTER).waitS()).isZero();
    // Twice the duty, twice the rest.
    HeatHistory twice = coldThen(new HeatHistory.Dated("a", 0, start(60, 3.5)));
    assertThat(HeatAccount.at(plan, twice, 60).part(HeatPart.Kind.STARTER).waitS())
        .isCloseTo(660, within(EXACT_S));
  }

  /** AC-53a 3-30:50-6: a cycle of 600 s from start to start, 300 s of them without current. */
  @Test
  void theStarterThatCarriesTheLoadAsksForItsCycle() {
    StarterDuty starter = new StarterDuty(RatingIndex.parse("AC-53a: 3-30:50-6"), 1);
    HeatPlan plan =
        new HeatPlan(MOTOR, starter, null, new StartRules(100, 0, "test", ""), List.of());
    HeatHistory shortRun = coldThen(new HeatHistory.Dated("a", 0, start(10, 3)));
    assertThat(HeatAccount.at(plan, shortRun, 10).part(HeatPart.Kind.STARTER).waitS())
        .isCloseTo(590, within(EXACT_S));
    HeatStretch longRun =
        new HeatStretch(
            List.of(new HeatPiece(10, HeatPiece.State.SLIP, 9, 9), HeatPiece.run(1000, 1)),
            List.of(new HeatStretch.Start(0, 1, "completed", false)),
            false,
            0);
    HeatHistory ran = coldThen(new HeatHistory.Dated("a", 0, longRun));
    assertThat(HeatAccount.at(plan, ran, 1010).part(HeatPart.Kind.STARTER).waitS())
        .isCloseTo(300, within(EXACT_S));
  }

  /** Relay of class 10 at 3 times for 12 s from cold: level by the thermal equation. */
  @Test
  void theRelaysMarginIsTheThermalEquations() {
    TripClass c10 = TripClass.parse("10");
    HeatPlan plan = new HeatPlan(MOTOR, null, c10, new StartRules(100, 0, "test", ""), List.of());
    HeatHistory history = coldThen(new HeatHistory.Dated("a", 0, start(12, 3)));
    StartHeat start = HeatAccount.at(plan, history, 12).starts().get(0);
    double fast = ThermalEquation.level(0, 9 / 1.1025, 12, c10.fastTimeConstantS());
    double slow = ThermalEquation.level(0, 9 / 1.1025, 12, c10.slowTimeConstantS());
    assertThat(start.relayHighest()).isCloseTo(fast, within(1e-12));
    assertThat(start.relayLowest()).isCloseTo(slow, within(1e-12));
    assertThat(fast).isBetween(slow, 1.0);
  }
}
