package rampwright.app.usecase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Files;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import rampwright.analysis.figure.TraceAnalyzer;
import rampwright.analysis.heat.HeatPart;
import rampwright.app.heat.HeatBook;
import rampwright.app.result.HeatResult;

/** No clock cools a motor: set forward, set back, another computer's. */
class ClockCheckTest extends HeatFolder {
  @Test
  void aClockSetBackCreditsNoCooling() throws Exception {
    trial("20260314T090000Z", 8);
    double before = rotor(keep().now(pump));
    Instant seen = now;
    now = seen.minus(Duration.ofHours(1));
    HeatResult back = keep().now(pump);
    assertThat(back.asOf()).isEqualTo(now);
    assertThat(rotor(back)).isCloseTo(before, within(1e-4));
    assertThat(back.remarks()).anyMatch(line -> line.contains("set back"));
    // A trial made by the clock that was set back is dated by it; one by the clock before has just
    // ended.
    trial("20260314T081100Z", 8);
    now = seen.minus(Duration.ofMinutes(58));
    HeatResult more = keep().now(pump);
    assertThat(more.datedBy()).containsEntry("20260314T081100Z", "folder name");
    assertThat(rotor(more)).isGreaterThan(before + 5);
    assertThat(more.standing().part(HeatPart.Kind.STARTER).waitS())
        .isCloseTo(330 - (60 - 9), within(EDGE_S));
    trial("20260314T090200Z", 8);
    HeatResult old = keep().now(pump);
    assertThat(old.datedBy()).containsEntry("20260314T090200Z", "first seen");
    assertThat(old.standing().part(HeatPart.Kind.STARTER).waitS()).isGreaterThan(300);
    // From then on time counts, without waiting for the clock to catch up.
    now = now.plus(Duration.ofMinutes(30));
    assertThat(rotor(keep().now(pump))).isLessThan(rotor(old) - 1);
  }

  /** A computer that stays on, is switched off, is another one; its clock is moved by hand. */
  private final class Computer implements UpClock {
    private String boot = "first";
    private double upS = 1000;

    @Override
    public Instant instant() {
      return now;
    }

    @Override
    public HeatBook.UpTime up() {
      return new HeatBook.UpTime(boot, upS);
    }

    void passes(double seconds) {
      upS += seconds;
      now = now.plusMillis(Math.round(1000 * seconds));
    }

    KeepHeat keep() {
      return new KeepHeat(door, TraceAnalyzer::analyze, "1", this);
    }
  }

  @Test
  void aClockSetForwardCoolsNothing() throws Exception {
    Computer computer = new Computer();
    trial("20260314T090000Z", 8);
    computer.passes(1);
    double first = rotor(computer.keep().now(pump));
    now = now.plus(Duration.ofHours(3));
    HeatResult moved = computer.keep().now(pump);
    assertThat(moved.asOf()).isEqualTo(now);
    assertThat(rotor(moved)).isCloseTo(first, within(1e-4));
    assertThat(moved.remarks()).anyMatch(line -> line.contains("set forward by 3 h 0 min"));
    // And it stays so, asked again, and with nothing written, and when it is set right again.
    assertThat(rotor(computer.keep().look(pump, List.of()))).isCloseTo(first, within(1e-4));
    computer.passes(600);
    double tenMinutes = rotor(computer.keep().now(pump));
    assertThat(tenMinutes).isLessThan(first - 0.1);
    now = now.minus(Duration.ofHours(3));
    HeatResult right = computer.keep().now(pump);
    assertThat(rotor(right)).isCloseTo(tenMinutes, within(1e-4));
    // The same as if nobody had touched the clock.
    Files.delete(pump.resolve("heat.toml"));
    assertThat(rotor(computer.keep().now(pump))).isCloseTo(tenMinutes, within(1e-3));
  }

  @Test
  void aTrialRecordedBeforeTheClockWasMovedIsMovedWithIt() throws Exception {
    Computer computer = new Computer();
    trial("20260314T080000Z", 8);
    computer.keep().now(pump);
    computer.passes(60);
    trial("20260314T091030Z", 8);
    now = now.plus(Duration.ofHours(3));
    HeatResult moved = computer.keep().now(pump);
    HeatPart starter = moved.standing().part(HeatPart.Kind.STARTER);
    // It ended its load at 09:10:39, 21 s before 09:11:00 of the old clock.
    assertThat(starter.waitS()).isCloseTo(330 - 21, within(EDGE_S));
  }

  @Test
  void timeThatOnlyTheClockTellsOfIsAPersonsWord() throws Exception {
    Computer computer = new Computer();
    trial("20260314T090000Z", 8);
    double first = rotor(computer.keep().now(pump));
    computer.boot = "second";
    computer.upS = 40;
    now = now.plus(Duration.ofHours(5));
    HeatResult unsaid = computer.keep().now(pump);
    assertThat(rotor(unsaid)).isCloseTo(first, within(1e-4));
    assertThat(unsaid.remarks())
        .anyMatch(line -> line.contains("--clock-right") && line.contains("5 h 0 min"));
    computer.passes(60);
    assertThat(rotor(computer.keep().now(pump))).isLessThan(first);
    assertThatThrownBy(() -> computer.keep().clockRight(pump, " "))
        .isInstanceOf(UsageProblem.class);
    HeatResult said = computer.keep().clockRight(pump, "A. Fitter");
    assertThat(rotor(said)).isLessThan(first - 20);
    assertThat(said.remarks()).noneMatch(line -> line.contains("--clock-right"));
    assertThat(Files.readString(pump.resolve("heat.toml"))).contains("right_by = \"A. Fitter\"");
    assertThatThrownBy(() -> computer.keep().clockRight(pump, "A. Fitter"))
        .isInstanceOf(UsageProblem.class)
        .hasMessageContaining("rests on the clock alone");
  }

  /** However the clock is moved, and whatever is asked when: never cooler than the time passed. */
  @Test
  void noClockCoolsAMotorFasterThanTimeDoes() throws Exception {
    Random random = new Random(20260314);
    for (int run = 0; run < 12; run++) {
      Files.deleteIfExists(pump.resolve("heat.toml"));
      now = NINE.plusSeconds(600);
      Computer computer = new Computer();
      trial("20260314T090000Z", 4 + 10 * random.nextDouble());
      computer.keep().now(pump);
      Instant truth = now;
      for (int step = 0; step < 8; step++) {
        double passedS = 600 * random.nextDouble();
        computer.passes(passedS);
        truth = truth.plusMillis(Math.round(1000 * passedS));
        switch (random.nextInt(5)) {
          case 0 -> now = now.plusSeconds(random.nextInt(20_000));
          case 1 -> now = now.minusSeconds(random.nextInt(20_000));
          case 2 -> {
            computer.boot = "boot " + step;
            computer.upS = 1;
            now = now.plusSeconds(random.nextInt(20_000) - 5_000);
          }
          default -> {
            // Nobody touches it.
          }
        }
        double shown = rotor(computer.keep().now(pump));
        Computer honest = new Computer();
        Instant kept = now;
        now = truth;
        byte[] book = Files.readAllBytes(pump.resolve("heat.toml"));
        Files.delete(pump.resolve("heat.toml"));
        double real = rotor(honest.keep().look(pump, List.of()));
        Files.write(pump.resolve("heat.toml"), book);
        now = kept;
        assertThat(shown).as("run %s step %s", run, step).isGreaterThanOrEqualTo(real - 0.01);
      }
    }
  }

  @Test
  void aWordGivenAfterAStepNobodyMetIsNotMovedByIt() throws Exception {
    Computer computer = new Computer();
    trial("20260314T090000Z", 8);
    computer.keep().now(pump);
    now = now.plus(Duration.ofHours(3));
    computer.passes(60);
    HeatResult cold = computer.keep().noteCold(pump, now.minusSeconds(10), "A. Fitter");
    assertThat(rotor(cold)).as("cold ten seconds ago").isLessThan(0.1);
    computer.passes(4 * 3600);
    trial("20260314T161000Z", 8);
    computer.passes(120);
    assertThat(rotor(computer.keep().now(pump))).as("and not again later").isGreaterThan(1);
  }

  /** By which clock a person read a moment is not known: what is hotter counts. */
  @Test
  void aStartToldByTheClockBeforeIsAsLateAsItCanHaveBeen() throws Exception {
    Computer computer = new Computer();
    trial("20260314T060000Z", 8);
    computer.keep().now(pump);
    now = now.plus(Duration.ofHours(3));
    computer.keep().now(pump);
    // 09:05 of the clock before, five minutes ago; of the clock of now it would be three hours.
    Instant told = Instant.parse("2026-03-14T09:05:00Z");
    HeatResult result =
        computer.keep().noteStart(pump, new NotedStart("A", told, 9.0, 3.5, told.plusSeconds(60)));
    assertThat(result.standing().part(HeatPart.Kind.STARTER).waitS())
        .isCloseTo(330 - (300 - 9), within(EDGE_S));
  }

  @Test
  void aComputerThatTellsNoRunningTimeSaysSo() throws Exception {
    trial("20260314T090000Z", 8);
    UpClock silent =
        new UpClock() {
          @Override
          public Instant instant() {
            return now;
          }

          @Override
          public HeatBook.UpTime up() {
            return null;
          }
        };
    KeepHeat keep = new KeepHeat(door, TraceAnalyzer::analyze, "1", silent);
    assertThat(keep.now(pump).remarks()).anyMatch(line -> line.contains("does not tell how long"));
    assertThat(keep().now(pump).remarks()).noneMatch(line -> line.contains("does not tell"));
  }
}
