package rampwright.analysis.heat;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class HeatAccountTest {
  private static final MotorHeat MOTOR =
      MotorHeat.of(new MotorHeat.Sheet(90e3, 400, 6.4, 6.0, 20.0, 8.0, 30.0, 90.0));

  private static final HeatPlan PLAN =
      new HeatPlan(MOTOR, null, null, new StartRules(6, 0, "test", ""), List.of());

  private static HeatStretch trial(double startS, double runS, boolean flowsAtEnd) {
    List<HeatPiece> pieces = new ArrayList<>();
    pieces.add(new HeatPiece(startS, HeatPiece.State.SLIP, 12, 12));
    pieces.add(HeatPiece.run(runS, 0.8));
    return new HeatStretch(
        pieces,
        List.of(new HeatStretch.Start(0, 1, "completed", false)),
        flowsAtEnd,
        flowsAtEnd ? 0.8 : 0);
  }

  @Test
  void theStrictestRuleIsNamed() {
    HeatPlan plan =
        new HeatPlan(
            MOTOR,
            new StarterDuty(RatingIndex.parse("AC-53b: 3.5-30:330"), 1),
            TripClass.parse("20"),
            new StartRules(1, 0, "nameplate", ""),
            List.of());
    HeatHistory history =
        new HeatHistory(List.of(new HeatHistory.Dated("a", 0, trial(8, 5, false))), List.of(0.0));
    HeatStanding standing = HeatAccount.at(plan, history, 20);
    assertThat(standing.ruledBy()).isEqualTo(HeatPart.Kind.PER_HOUR);
    assertThat(standing.waitS()).isEqualTo(3580);
    for (HeatPart part : standing.parts()) {
      assertThat(part.waitS()).isLessThanOrEqualTo(standing.waitS());
    }
    assertThat(standing.part(HeatPart.Kind.STARTER).waitS()).isCloseTo(318, within(1e-6));
  }

  @Test
  void aTraceThatEndsRunningRanOn() {
    HeatHistory runs =
        new HeatHistory(List.of(new HeatHistory.Dated("a", 0, trial(8, 5, true))), List.of(0.0));
    HeatHistory stops =
        new HeatHistory(List.of(new HeatHistory.Dated("a", 0, trial(8, 5, false))), List.of(0.0));
    HeatStanding running = HeatAccount.at(PLAN, runs, 7200);
    HeatStanding stopped = HeatAccount.at(PLAN, stops, 7200);
    assertThat(running.running()).isTrue();
    assertThat(stopped.running()).isFalse();
    assertThat(running.part(HeatPart.Kind.ROTOR).usedPct())
        .isGreaterThan(stopped.part(HeatPart.Kind.ROTOR).usedPct() + 20);
  }

  @Test
  void aTraceThatBeginsRunningHidesAStart() {
    HeatStretch run = new HeatStretch(List.of(HeatPiece.run(10, 0.8)), List.of(), false, 0);
    HeatHistory history =
        new HeatHistory(List.of(new HeatHistory.Dated("a", 3600, run)), List.of(0.0));
    HeatStanding standing = HeatAccount.at(PLAN, history, 3610);
    assertThat(standing.hotAssumed()).isTrue();
    assertThat(standing.part(HeatPart.Kind.STATOR).usedPct()).isGreaterThan(85);
  }

  @Test
  void aStartTheTraceCutsOffCountsAsAWholeHotAllowance() {
    HeatStretch cut =
        new HeatStretch(
            List.of(new HeatPiece(2, HeatPiece.State.SLIP, 12, 12)),
            List.of(new HeatStretch.Start(0, 1, "cut off", true)),
            true,
            1);
    HeatHistory history =
        new HeatHistory(List.of(new HeatHistory.Dated("a", 0, cut)), List.of(0.0));
    StartHeat start = HeatAccount.at(PLAN, history, 2).starts().get(0);
    assertThat(start.rotorAdded()).isCloseTo(0.4, within(1e-12));
    assertThat(start.after().rotor()).isGreaterThan(0.39);
  }

  @Test
  void aStartBeforeItsTimeIsFound() {
    HeatHistory history =
        new HeatHistory(
            List.of(
                new HeatHistory.Dated("a", 0, trial(20, 5, false)),
                new HeatHistory.Dated("b", 100, trial(20, 5, false)),
                new HeatHistory.Dated("c", 200, trial(20, 5, false)),
                new HeatHistory.Dated("d", 90_000, trial(20, 5, false))),
            List.of(0.0));
    List<StartHeat> starts = HeatAccount.at(PLAN, history, 90_100).starts();
    assertThat(starts.get(0).isTooSoon()).isFalse();
    assertThat(starts.get(1).isTooSoon()).as("the second from cold is free").isFalse();
    assertThat(starts.get(2).isTooSoon()).isTrue();
    assertThat(starts.get(2).tooSoonByS()).isGreaterThan(60);
    assertThat(starts.get(3).isTooSoon()).as("a day later").isFalse();
  }

  @Test
  void aStartThatTakesMoreThanEverythingHasNoTime() {
    HeatStretch much =
        new HeatStretch(
            List.of(new HeatPiece(70, HeatPiece.State.SLIP, 12, 12)),
            List.of(new HeatStretch.Start(0, 1, "stalled", false)),
            false,
            0);
    HeatHistory history =
        new HeatHistory(List.of(new HeatHistory.Dated("a", 0, much)), List.of(0.0));
    HeatStanding standing = HeatAccount.at(PLAN, history, 100);
    assertThat(standing.waitS()).isNull();
    assertThat(standing.why()).contains("even from cold");
    assertThat(standing.startsPerHour()).isZero();
  }

  /** Less knowledge never shortens the wait: each key of the sheet taken away in turn. */
  @Test
  void missingKeysNeverShortenTheWait() {
    HeatHistory history =
        new HeatHistory(
            List.of(
                new HeatHistory.Dated("a", 0, trial(15, 600, false)),
                new HeatHistory.Dated("b", 900, trial(15, 600, false))),
            List.of(0.0));
    double whole = wait(new MotorHeat.Sheet(90e3, 400, 6.0, 6.0, 20.0, 12.0, 30.0, 90.0), history);
    for (int missing = 0; missing < 5; missing++) {
      MotorHeat.Sheet less =
          new MotorHeat.Sheet(
              90e3,
              400,
              6.0,
              missing == 0 ? null : Double.valueOf(6),
              missing == 1 ? null : Double.valueOf(20),
              missing == 2 ? null : Double.valueOf(12),
              missing == 3 ? null : Double.valueOf(30),
              missing == 4 ? null : Double.valueOf(90));
      assertThat(wait(less, history)).as("key " + missing).isGreaterThanOrEqualTo(whole);
    }
  }

  private static double wait(MotorHeat.Sheet sheet, HeatHistory history) {
    HeatPlan plan =
        new HeatPlan(MotorHeat.of(sheet), null, null, new StartRules(6, 0, "test", ""), List.of());
    Double waitS = HeatAccount.at(plan, history, 1600).waitS();
    return waitS == null ? Double.POSITIVE_INFINITY : waitS;
  }

  /** While a motor stands, a moment later the wait is that moment shorter, and never longer. */
  @Test
  void theWaitRunsDownWithTheClock() {
    Random random = new Random(7);
    for (int k = 0; k < 50; k++) {
      double startS = 5 + 20 * random.nextDouble();
      HeatHistory history =
          new HeatHistory(
              List.of(new HeatHistory.Dated("a", 0, trial(startS, 100, false))), List.of());
      Double first = HeatAccount.at(PLAN, history, 200).waitS();
      Double later = HeatAccount.at(PLAN, history, 260).waitS();
      assertThat(later).isCloseTo(Math.max(0, first - 60), within(1e-6));
    }
  }
}
