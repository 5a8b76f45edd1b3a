package rampwright.app.usecase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.acquisition.file.ReadOptions;
import rampwright.acquisition.file.TraceFileException;
import rampwright.acquisition.file.TraceFiles;
import rampwright.analysis.figure.TraceAnalyzer;
import rampwright.analysis.heat.HeatPart;
import rampwright.analysis.heat.StartHeat;
import rampwright.analysis.trace.Trace;
import rampwright.app.fixture.Workshop;
import rampwright.app.heat.HeatBook;
import rampwright.app.heat.HeatBookFile;
import rampwright.app.result.Batch;
import rampwright.app.result.HeatResult;

/** The account of a folder: traces in, clock and missing history handled cautiously. */
class KeepHeatTest {
  private static final Instant NINE = Instant.parse("2026-03-14T09:00:00Z");

  /** The end of a start lies within some readings of 0.05 s, dated late on purpose. */
  private static final double EDGE_S = 0.5;

  @TempDir private Path folder;
  private Path pump;
  private Instant now = NINE.plusSeconds(600);
  private int reads;

  private final TraceFileDoor door =
      new TraceFileDoor() {
        @Override
        public Trace read(ReadRequest request) throws TraceFileException {
          reads++;
          return TraceFiles.read(
              request.file(),
              new ReadOptions(
                  request.columns(),
                  request.declaredKind(),
                  request.secondary(),
                  request.context()));
        }

        @Override
        public List<Path> write(WriteRequest request) {
          throw new UnsupportedOperationException("nothing is written here");
        }
      };

  private KeepHeat keep() {
    return new KeepHeat(door, TraceAnalyzer::analyze, "1", () -> now);
  }

  @BeforeEach
  void lay() throws IOException {
    pump = new Workshop(folder).asset("pump");
  }

  /** A trial of a motor of 160 A: 8 s at 3.5 x, some seconds at 0.7 x, stopped. */
  private Path trial(String name, double startS) throws IOException {
    Path trial = Files.createDirectories(pump.resolve("trials").resolve(name));
    StringBuilder csv = new StringBuilder("time_s,i1_A,i2_A,i3_A\n");
    for (int k = 0; k < 20 * 20; k++) {
      double t = k / 20.0;
      double amps = t < 1 ? 0 : t < 1 + startS ? 560 : t < 17 ? 112 : 0;
      csv.append(String.format(Locale.ROOT, "%.2f,%.1f,%.1f,%.1f%n", t, amps, amps, amps));
    }
    return Files.writeString(trial.resolve("trace.csv"), csv);
  }

  private double rotor(HeatResult result) {
    HeatPart part = result.standing().part(HeatPart.Kind.ROTOR);
    assertThat(part).isNotNull();
    return part.usedPct();
  }

  @Test
  void aDatedTrialIsCountedAndKept() throws Exception {
    trial("20260314T090000Z", 8);
    HeatResult result = keep().now(pump);
    assertThat(result.standing().starts()).hasSize(1);
    assertThat(result.datedBy()).containsEntry("20260314T090000Z", "folder name");
    // 8 s x 12.25 x 1.02^2 of 25 s x 7.2^2, the asset's own locked-rotor numbers.
    assertThat(result.standing().starts().get(0).rotorAdded())
        .isCloseTo(8 * 12.25 * 1.0404 / (25 * 51.84), within(0.002));
    assertThat(result.standing().hotAssumed()).isTrue();
    assertThat(HeatBookFile.read(pump).lastSeen()).isEqualTo(now);
    // The starter: AC-53b 3.5-30:330 from the end of its load, 9 s into the trace.
    HeatPart starter = result.standing().part(HeatPart.Kind.STARTER);
    assertThat(starter).isNotNull();
    assertThat(starter.waitS()).isZero();
  }

  @Test
  void whatIsKeptIsNotReadAgainAndGivesTheSame() throws Exception {
    trial("20260314T090000Z", 8);
    HeatResult first = keep().now(pump);
    int before = reads;
    HeatResult again = keep().now(pump);
    assertThat(reads).isEqualTo(before);
    assertThat(rotor(again)).isCloseTo(rotor(first), within(1e-4));
    // A trace written anew is read anew.
    trial("20260314T090000Z", 12);
    Files.setLastModifiedTime(
        pump.resolve("trials/20260314T090000Z/trace.csv"), FileTime.from(now.plusSeconds(5)));
    assertThat(rotor(keep().now(pump))).isGreaterThan(rotor(first));
    assertThat(reads).isEqualTo(before + 1);
  }

  @Test
  void aTrialThatIsGoneStillCounts() throws Exception {
    Path trace = trial("20260314T090000Z", 8);
    double before = rotor(keep().now(pump));
    Files.delete(trace);
    Files.delete(trace.getParent());
    HeatResult after = keep().now(pump);
    assertThat(rotor(after)).isCloseTo(before, within(1e-4));
    assertThat(after.remarks()).anyMatch(line -> line.contains("no longer in the folder"));
  }

  @Test
  void aPersonsWordThatItWasColdCounts() throws Exception {
    trial("20260314T090000Z", 8);
    double hot = rotor(keep().now(pump));
    HeatResult cold = keep().noteCold(pump, NINE.minusSeconds(60), "A. Fitter");
    assertThat(rotor(cold)).isLessThan(hot - 20);
    assertThat(cold.standing().hotAssumed()).isFalse();
    assertThat(HeatBookFile.read(pump).cold()).hasSize(1);
    assertThatThrownBy(() -> keep().noteCold(pump, now.plusSeconds(600), "A. Fitter"))
        .isInstanceOf(UsageProblem.class)
        .hasMessageContaining("later than now");
  }

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
  void aStartNobodyRecordedIsToldAndToldApart() throws Exception {
    trial("20260314T060000Z", 8);
    now = NINE;
    double before = rotor(keep().now(pump));
    Instant began = NINE.minusSeconds(300);
    HeatResult known =
        keep().noteStart(pump, new NotedStart("A. Fitter", began, 9.0, 3.5, began.plusSeconds(60)));
    assertThat(known.standing().starts()).hasSize(2);
    StartHeat told = known.standing().starts().get(1);
    assertThat(told.measured()).isFalse();
    assertThat(known.standing().starts().get(0).measured()).isTrue();
    assertThat(told.rotorAdded()).isCloseTo(9 * 3.5 * 3.5 * 1.0404 / (25 * 51.84), within(1e-9));
    assertThat(known.datedBy()).containsValue("noted by A. Fitter");
    assertThat(known.standing().running()).isFalse();
    assertThat(rotor(known)).isGreaterThan(before);
    // The start to come is reckoned as a measured one.
    assertThat(known.standing().expectedRotor())
        .isCloseTo(known.standing().starts().get(0).rotorAdded(), within(1e-9));
    // Nothing known: just now, the whole hot allowance, and it runs.
    HeatResult unknown =
        keep().noteStart(pump, new NotedStart("B. Fitter", null, null, null, null));
    StartHeat worst = unknown.standing().starts().get(2);
    assertThat(worst.rotorAdded()).isCloseTo(12.0 / 25, within(1e-9));
    assertThat(unknown.standing().running()).isTrue();
    assertThat(rotor(unknown)).isGreaterThan(rotor(known) + 40);
    assertThat(unknown.remarks())
        .anyMatch(line -> line.contains("told by B. Fitter, not measured: moment not known"));
    assertThat(HeatBookFile.read(pump).noted()).hasSize(2);
    assertThat(rotor(keep().now(pump))).isCloseTo(rotor(unknown), within(1e-6));
  }

  @Test
  void whatCannotBeToldOfAStartIsRefused() {
    Instant later = now.plusSeconds(60);
    List<NotedStart> wrong =
        List.of(
            new NotedStart(" ", NINE, null, null, null),
            new NotedStart("A", later, null, null, null),
            new NotedStart("A", NINE, -1.0, null, null),
            new NotedStart("A", NINE, Double.NaN, null, null),
            new NotedStart("A", NINE, 9.0, 90.0, null),
            new NotedStart("A", NINE, null, 3.5, null),
            new NotedStart("A", NINE, 9.0, null, NINE.minusSeconds(1)),
            new NotedStart("A", null, 9.0, null, NINE));
    for (NotedStart one : wrong) {
      assertThatThrownBy(() -> keep().noteStart(pump, one))
          .as(one.toString())
          .isInstanceOf(UsageProblem.class);
    }
    assertThat(pump.resolve("heat.toml")).doesNotExist();
  }

  @Test
  void aTrialDatedInTheFutureCountsAsJustEnded() throws Exception {
    trial("20270101T000000Z", 8);
    HeatResult result = keep().now(pump);
    assertThat(result.remarks()).anyMatch(line -> line.contains("later than now"));
    assertThat(result.standing().starts()).hasSize(1);
    assertThat(result.standing().part(HeatPart.Kind.STARTER).waitS()).isGreaterThan(300);
  }

  @Test
  void aTrialWithoutADateEndedWhenItsFileWasWritten() throws Exception {
    Path trace = trial("second try", 8);
    Files.setLastModifiedTime(trace, FileTime.from(now.minusSeconds(100)));
    HeatResult result = keep().now(pump);
    assertThat(result.datedBy()).containsEntry("second try", "file time");
    // Its load ended 11 s before the trace did, 111 s ago.
    assertThat(result.standing().part(HeatPart.Kind.STARTER).waitS())
        .isCloseTo(330 - 111, within(EDGE_S));
  }

  @Test
  void aTraceThatCannotBeReadCountsAsAWholeHotAllowance() throws Exception {
    Path trace = trial("20260314T090000Z", 8);
    Files.writeString(trace, "");
    HeatResult result = keep().now(pump);
    assertThat(result.standing().starts()).hasSize(1);
    assertThat(result.standing().starts().get(0).rotorAdded()).isCloseTo(12.0 / 25, within(1e-9));
    assertThat(result.remarks()).anyMatch(line -> line.contains("whole hot allowance"));
    assertThat(result.standing().waitS()).isPositive();
    int before = reads;
    assertThat(keep().now(pump).remarks()).anyMatch(line -> line.contains("[[trace]]"));
    assertThat(reads).as("tried again").isEqualTo(before + 1);
  }

  @Test
  void anotherMomentIsAskedAboutWithoutKeepingAnything() throws Exception {
    trial("20260314T090000Z", 8);
    HeatResult earlier = keep().at(pump, NINE.plusSeconds(60));
    HeatResult sooner = keep().at(pump, NINE.minusSeconds(60));
    assertThat(earlier.standing().part(HeatPart.Kind.STARTER).waitS())
        .isCloseTo(330 - 51, within(EDGE_S));
    assertThat(sooner.standing().starts()).isEmpty();
    assertThat(pump.resolve("heat.toml")).doesNotExist();
  }

  @Test
  void anOldRecordSaysNothingOfWhatTheMotorDidSince() throws Exception {
    trial("20260314T090000Z", 8);
    now = NINE.plus(Duration.ofDays(30));
    HeatResult result = keep().now(pump);
    assertThat(rotor(result)).isCloseTo(100 * (1 - 12.0 / 25), within(1e-6));
    assertThat(result.remarks()).anyMatch(line -> line.contains("older than 24 h"));
    assertThat(result.standing().expectedRotor())
        .as("the old start says what the next takes")
        .isBetween(0.05, 0.1);
  }

  @Test
  void armingAsksAndTheEarlyWordIsKept() throws Exception {
    trial("20260314T090000Z", 8);
    now = NINE.plusSeconds(30);
    KeepHeat.Arming asked = keep().arming(pump);
    assertThat(asked.allowed()).isFalse();
    assertThatThrownBy(() -> keep().recordEarly(pump, asked, "  "))
        .isInstanceOf(UsageProblem.class);
    keep().recordEarly(pump, asked, "the tide was turning");
    HeatBook.Early early = HeatBookFile.read(pump).early().get(0);
    assertThat(early.reason()).isEqualTo("the tide was turning");
    assertThat(early.ruledBy()).isEqualTo(asked.result().standing().ruledBy().key());
    assertThat(early.waitS()).isEqualTo(asked.result().standing().waitS());
    assertThat(keep().now(pump).remarks()).anyMatch(line -> line.contains("the tide was turning"));
    now = NINE.plus(Duration.ofHours(5));
    assertThat(keep().arming(pump).allowed()).isTrue();
  }

  @Test
  void aStartTooSoonIsAFindingOfItsTrial() throws Exception {
    trial("20260314T090000Z", 8);
    trial("20260314T090100Z", 8);
    trial("20260314T120000Z", 8);
    Batch batch =
        new AnalyzeTraces(door, TraceAnalyzer::analyze, "1", 1)
            .run(List.of(pump), InputChoice.DEFAULT, true, Progress.NONE);
    assertThat(codes(batch, 0)).doesNotContain("repeat-too-soon");
    assertThat(codes(batch, 1)).contains("repeat-too-soon");
    assertThat(codes(batch, 2)).doesNotContain("repeat-too-soon");
    assertThat(pump.resolve("trials/20260314T090100Z/figures.json"))
        .content()
        .contains("repeat-too-soon");
  }

  @Test
  void aTrialAnalysedAloneIsHeldAgainstTheKeptAccount() throws Exception {
    trial("20260314T090000Z", 8);
    trial("20260314T090100Z", 8);
    Path second = pump.resolve("trials/20260314T090100Z");
    AnalyzeTraces analyze = new AnalyzeTraces(door, TraceAnalyzer::analyze, "1", 1);
    Batch alone = analyze.run(List.of(second), InputChoice.DEFAULT, false, Progress.NONE);
    assertThat(codes(alone, 0)).as("nothing is kept yet").doesNotContain("repeat-too-soon");
    keep().now(pump);
    Batch known = analyze.run(List.of(second), InputChoice.DEFAULT, false, Progress.NONE);
    assertThat(codes(known, 0)).contains("repeat-too-soon");
  }

  private static List<String> codes(Batch batch, int trial) {
    return batch.results().get(trial).figures().findings().stream().map(f -> f.code()).toList();
  }

  @Test
  void aBrokenAccountIsSaidWithItsPlace() throws Exception {
    Files.writeString(pump.resolve("heat.toml"), "[account]\nlast_seen = 5\n");
    assertThatThrownBy(() -> keep().now(pump))
        .isInstanceOf(InputProblem.class)
        .hasMessageContaining("heat.toml")
        .hasMessageContaining("last_seen");
  }
}
