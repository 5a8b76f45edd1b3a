package rampwright.analysis.heat;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/**
 * What the wait may and may not do, over random nameplates and histories: less knowledge and more
 * heat never shorten it, time that passes never lengthens it.
 */
class HeatWaitTest {
  private static final int PLATES = 400;

  /** Rounding of exponentials and of a wait of hours. */
  private static final double ROUNDING_S = 1e-6;

  /** A motor, its starter and load; null is not known. */
  private record Plate(
      @Nullable Double ratio,
      @Nullable Double coldS,
      @Nullable Double hotS,
      @Nullable Double heatingMin,
      @Nullable Double coolingMin,
      @Nullable Double inertia,
      @Nullable String index,
      double typicalRatio,
      double ratedW,
      double rotorInertia) {
    static final int ITEMS = 7;

    Plate without(int item) {
      return new Plate(
          item == 0 ? null : ratio,
          item == 1 ? null : coldS,
          item == 2 ? null : hotS,
          item == 3 ? null : heatingMin,
          item == 4 ? null : coolingMin,
          item == 5 ? null : inertia,
          item == 6 ? null : index,
          typicalRatio,
          ratedW,
          rotorInertia);
    }

    HeatPlan plan() {
      return new HeatPlan(
          MotorHeat.of(
              new MotorHeat.Sheet(
                  ratedW, 400, typicalRatio, ratio, coldS, hotS, heatingMin, coolingMin)),
          new StarterDuty(index == null ? null : RatingIndex.parse(index), 1),
          null,
          StartRules.of(null, ratedW, 2, inertia, rotorInertia, true),
          List.of());
    }
  }

  /**
   * A plate within what is usual, which is what a missing key stands for: locked-rotor ratio within
   * its makes' spread, 12 s and more from hot, hot 0.4 to 0.9 of cold, warming in 19 to 26 min (the
   * usual 15 less the fifth a stated one may be off), cooling two to four times slower, a load of
   * at most nine times the rotor, a starter for three starts an hour or more.
   */
  private static Plate plate(Random random) {
    double typical = 5.5 + 2 * random.nextDouble();
    double hotS = 12 + 20 * random.nextDouble();
    double heatingMin = 19 + 7 * random.nextDouble();
    double ratedW = 5e3 + 180e3 * random.nextDouble();
    double rotor = 0.1 * Math.pow(ratedW / 30e3, 1.3);
    return new Plate(
        typical * (0.8 + 0.4 * random.nextDouble()),
        hotS / (0.4 + 0.5 * random.nextDouble()),
        hotS,
        heatingMin,
        heatingMin * (2 + 2 * random.nextDouble()),
        9 * rotor * random.nextDouble(),
        "AC-53b: 3.5-30:" + (60 + random.nextInt(1100)),
        typical,
        ratedW,
        rotor);
  }

  private record Trial(double beginS, double startS, double current, double runS) {
    HeatHistory.Dated dated(int number) {
      return new HeatHistory.Dated(
          "t" + number,
          beginS,
          new HeatStretch(
              List.of(
                  new HeatPiece(startS, HeatPiece.State.SLIP, current * current, current * current),
                  HeatPiece.run(runS, 0.7)),
              List.of(new HeatStretch.Start(0, 1, "completed", false)),
              false,
              0));
    }
  }

  private static List<Trial> trials(Random random) {
    List<Trial> trials = new ArrayList<>();
    double atS = 0;
    int count = 1 + random.nextInt(4);
    for (int k = 0; k < count; k++) {
      Trial trial =
          new Trial(
              atS,
              2 + 18 * random.nextDouble(),
              2 + 2 * random.nextDouble(),
              5 + 600 * random.nextDouble());
      trials.add(trial);
      atS += trial.startS() + trial.runS() + 30 + 1800 * random.nextDouble();
    }
    return trials;
  }

  private static double end(List<Trial> trials) {
    Trial last = trials.get(trials.size() - 1);
    return last.beginS() + last.startS() + last.runS();
  }

  private static double wait(HeatPlan plan, List<Trial> trials, boolean cold, double nowS) {
    List<HeatHistory.Dated> dated = new ArrayList<>();
    for (Trial trial : trials) {
      dated.add(trial.dated(dated.size()));
    }
    HeatHistory history = new HeatHistory(dated, cold ? List.of(0.0) : List.of());
    Double waitS = HeatAccount.at(plan, history, nowS).waitS();
    return waitS == null ? Double.POSITIVE_INFINITY : waitS;
  }

  /** Each item of the sheet taken away alone, and any of them together. */
  @Test
  void lessKnowledgeNeverShortensTheWait() {
    Random random = new Random(60034);
    int longer = 0;
    for (int k = 0; k < PLATES; k++) {
      Plate whole = plate(random);
      List<Trial> trials = trials(random);
      boolean cold = random.nextBoolean();
      double nowS = end(trials) + 300 * random.nextDouble();
      double waitS = wait(whole.plan(), trials, cold, nowS);
      Plate fewer = whole;
      for (int item = 0; item < Plate.ITEMS; item++) {
        double one = wait(whole.without(item).plan(), trials, cold, nowS);
        assertThat(one).as("%s without %s", whole, item).isGreaterThanOrEqualTo(waitS - ROUNDING_S);
        longer += one > waitS + 1 ? 1 : 0;
        if (random.nextBoolean()) {
          double before = wait(fewer.plan(), trials, cold, nowS);
          fewer = fewer.without(item);
          assertThat(wait(fewer.plan(), trials, cold, nowS))
              .as("%s less %s", fewer, item)
              .isGreaterThanOrEqualTo(before - ROUNDING_S);
        }
      }
    }
    assertThat(longer).as("the test sees waits at all").isGreaterThan(PLATES);
  }

  /** A spread made wider at either end, whatever the rest. */
  @Test
  void aWiderSpreadNeverShortensTheWait() {
    Random random = new Random(60255);
    for (int k = 0; k < PLATES; k++) {
      HeatPlan plan = plate(random).plan();
      MotorHeat motor = plan.motor();
      MotorHeat vague =
          new MotorHeat(
              motor.lockedRatio(),
              motor.lockedColdS(),
              motor.lockedHotS(),
              wider(motor.heatingS(), random),
              wider(motor.coolingS(), random),
              motor.overload(),
              motor.leastRunLevel(),
              List.of());
      List<Trial> trials = trials(random);
      boolean cold = random.nextBoolean();
      double nowS = end(trials) + 300 * random.nextDouble();
      assertThat(wait(with(plan, vague), trials, cold, nowS))
          .isGreaterThanOrEqualTo(wait(plan, trials, cold, nowS) - ROUNDING_S);
    }
  }

  private static Spread wider(Spread spread, Random random) {
    return new Spread(
        spread.low() / (1 + random.nextDouble()),
        spread.stated(),
        spread.high() * (1 + random.nextDouble()));
  }

  private static HeatPlan with(HeatPlan plan, MotorHeat motor) {
    return new HeatPlan(motor, plan.starter(), plan.relay(), plan.rules(), plan.expected());
  }

  /** A longer start, a larger current, a longer run, one start more. */
  @Test
  void moreHeatNeverShortensTheWait() {
    Random random = new Random(60947);
    for (int k = 0; k < PLATES; k++) {
      HeatPlan plan = plate(random).plan();
      List<Trial> trials = trials(random);
      boolean cold = random.nextBoolean();
      double nowS = end(trials) + 400;
      double waitS = wait(plan, trials, cold, nowS);
      int which = random.nextInt(trials.size());
      Trial one = trials.get(which);
      // What starts longer runs shorter, so that it ends as it did.
      double more = Math.min(20 * random.nextDouble(), one.runS());
      List<Trial> changes =
          List.of(
              new Trial(one.beginS(), one.startS() + more, one.current(), one.runS() - more),
              new Trial(one.beginS(), one.startS(), 1.2 * one.current(), one.runS()));
      for (Trial change : changes) {
        List<Trial> warmer = new ArrayList<>(trials);
        warmer.set(which, change);
        assertThat(wait(plan, warmer, cold, nowS))
            .as("%s for %s", change, one)
            .isGreaterThanOrEqualTo(waitS - ROUNDING_S);
      }
      List<Trial> further = new ArrayList<>(trials);
      further.add(new Trial(end(trials) + 60, one.startS(), one.current(), 5));
      assertThat(wait(plan, further, cold, nowS)).isGreaterThanOrEqualTo(waitS - ROUNDING_S);
    }
  }

  /** A motor that stands waits no longer a while later, and shorter by that while. */
  @Test
  void timeNeverLengthensTheWait() {
    Random random = new Random(12544);
    for (int k = 0; k < PLATES; k++) {
      Plate plate = plate(random);
      for (int item = 0; item < Plate.ITEMS; item++) {
        plate = random.nextInt(4) == 0 ? plate.without(item) : plate;
      }
      HeatPlan plan = plate.plan();
      List<Trial> trials = trials(random);
      boolean cold = random.nextBoolean();
      double nowS = end(trials);
      double waitS = wait(plan, trials, cold, nowS);
      for (int step = 0; step < 6; step++) {
        double passedS = 900 * random.nextDouble();
        nowS += passedS;
        double later = wait(plan, trials, cold, nowS);
        assertThat(later)
            .as("%s %s", plate, trials)
            .isLessThanOrEqualTo(Math.max(0, waitS - passedS) + ROUNDING_S);
        waitS = later;
      }
    }
  }
}
