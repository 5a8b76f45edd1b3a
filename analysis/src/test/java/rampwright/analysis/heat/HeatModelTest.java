package rampwright.analysis.heat;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class HeatModelTest {
  private static final MotorHeat MOTOR =
      MotorHeat.of(new MotorHeat.Sheet(90e3, 400, 6.4, 6.0, 20.0, 12.0, 30.0, 90.0));

  /** Rounding of exponentials. */
  private static final double EXACT = 1e-9;

  private static HeatPiece slip(double lastsS, double current) {
    return new HeatPiece(lastsS, HeatPiece.State.SLIP, current * current, current * current);
  }

  /**
   * Locked at once for the cold time from cold, the budget is used up but for what was given off.
   */
  @Test
  void theLockedRotorTimesAreTheBudget() {
    HeatModel model = HeatModel.stated(MOTOR);
    assertThat(model.rotorAdded(slip(20, 6))).isCloseTo(1, within(EXACT));
    Levels cold = model.after(Levels.COLD, slip(20, 6));
    assertThat(cold.rotor()).isBetween(1 - 20.0 / 1800, 1.0);
    Levels hot = model.running(1);
    assertThat(hot.rotor()).isCloseTo(1 - 12.0 / 20, within(EXACT));
    assertThat(hot.rotor() + model.rotorAdded(slip(12, 6))).isCloseTo(1, within(EXACT));
  }

  /** Long rated running comes to the hot levels, whatever went before. */
  @Test
  void ratedRunningSettlesAtTheHotLevels() {
    HeatModel model = HeatModel.stated(MOTOR);
    Levels settled = model.after(new Levels(0.95, 0.1), HeatPiece.run(100 * 1800, 1));
    assertThat(settled.rotor()).isCloseTo(0.4, within(EXACT));
    assertThat(settled.stator()).isCloseTo(1 / 1.1025, within(EXACT));
  }

  /** Cut into any pieces, a stretch gives the same: the closed form is exact. */
  @Test
  void piecesDoNotMatter() {
    HeatModel model = HeatModel.cautious(MOTOR);
    Levels whole = model.after(new Levels(0.3, 0.2), slip(30, 3));
    Levels cut = new Levels(0.3, 0.2);
    for (int k = 0; k < 300; k++) {
      cut = model.after(cut, slip(0.1, 3));
    }
    assertThat(cut.rotor()).isCloseTo(whole.rotor(), within(EXACT));
    assertThat(cut.stator()).isCloseTo(whole.stator(), within(EXACT));
  }

  /**
   * No motor within the spreads, read by no meter within its class, is ever above the cautious
   * level: ten thousand of them, over random histories, by the bare equations with one set of
   * numbers each.
   */
  @Test
  void noMotorWithinTheSpreadsIsWarmerThanTheCautiousOne() {
    Random random = new Random(60255);
    for (int history = 0; history < 20; history++) {
      List<HeatPiece> pieces = new ArrayList<>();
      for (int k = 0; k < 8; k++) {
        double current =
            random.nextDouble() < 0.5 ? 2 + 5 * random.nextDouble() : 0.2 + random.nextDouble();
        pieces.add(
            current > 2
                ? slip(2 + 10 * random.nextDouble(), current)
                : HeatPiece.run(3000 * random.nextDouble(), current * current));
        pieces.add(HeatPiece.rest(4000 * random.nextDouble()));
      }
      HeatModel cautious = HeatModel.cautious(MOTOR);
      List<Levels> upper = new ArrayList<>();
      Levels at = new Levels(0.5, 0.5);
      for (HeatPiece piece : pieces) {
        at = cautious.after(at, piece);
        upper.add(at);
      }
      for (int motor = 0; motor < 500; motor++) {
        double tauRun = between(random, MOTOR.heatingS());
        double tauRest = between(random, MOTOR.coolingS());
        double gain = 0.98 + 0.04 * random.nextDouble();
        Levels one = new Levels(0.5, 0.5);
        for (int k = 0; k < pieces.size(); k++) {
          one = bare(one, pieces.get(k), tauRun, tauRest, gain * gain);
          assertThat(one.rotor()).isLessThanOrEqualTo(upper.get(k).rotor() + EXACT);
          assertThat(one.stator()).isLessThanOrEqualTo(upper.get(k).stator() + EXACT);
        }
      }
    }
  }

  private static double between(Random random, Spread spread) {
    return spread.low() + random.nextDouble() * (spread.high() - spread.low());
  }

  /** The equations as the docs give them, with one motor's numbers throughout. */
  private static Levels bare(
      Levels from, HeatPiece piece, double tauRun, double tauRest, double gain) {
    double rotor = from.rotor();
    double stator = from.stator();
    int steps = 8;
    for (int k = 0; k < steps; k++) {
      double dt = piece.lastsS() / steps;
      boolean rest = piece.state() == HeatPiece.State.REST;
      double tau = rest ? tauRest : tauRun;
      double statorTarget = gain * piece.square() / 1.1025;
      double rotorTarget =
          switch (piece.state()) {
            case REST -> 0;
            case RUN -> 0.4 * gain * piece.rotorSquare();
            case SLIP -> tau * gain * piece.rotorSquare() / (36 * 20);
          };
      // Exact over a step, so that only the choice of numbers is tested.
      rotor = rotorTarget + (rotor - rotorTarget) * Math.exp(-dt / tau);
      stator = statorTarget + (stator - statorTarget) * Math.exp(-dt / tau);
    }
    return new Levels(rotor, stator);
  }

  @Test
  void whatTheSheetDoesNotSayIsSaid() {
    MotorHeat bare =
        MotorHeat.of(new MotorHeat.Sheet(90e3, 400, 6.4, null, null, null, null, null));
    assertThat(bare.lockedHotS()).isEqualTo(12);
    assertThat(bare.lockedColdS()).isCloseTo(12 / 0.9, within(EXACT));
    assertThat(bare.runLevel()).isCloseTo(0.1, within(EXACT));
    assertThat(bare.lockedRatio()).isLessThan(6.4);
    assertThat(bare.assumed()).hasSize(4);
    MotorHeat large = MotorHeat.of(new MotorHeat.Sheet(2e6, 6600, 6, 6.0, null, null, 40.0, null));
    assertThat(large.lockedHotS()).isEqualTo(10);
    MotorHeat cold = MotorHeat.of(new MotorHeat.Sheet(90e3, 400, 6.4, 6.0, 25.0, null, 30.0, 90.0));
    assertThat(cold.lockedHotS()).isEqualTo(10);
    assertThat(cold.assumed()).singleElement().asString().contains("from hot not given");
  }
}
