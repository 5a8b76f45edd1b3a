package rampwright.app.usecase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import rampwright.analysis.figure.TraceAnalyzer;
import rampwright.analysis.heat.HeatPart;
import rampwright.app.heat.HeatBook;
import rampwright.app.heat.HeatBookFile;
import rampwright.app.result.Batch;
import rampwright.app.result.HeatResult;

/** The account of a folder: traces in, missing history handled cautiously. */
class KeepHeatTest extends HeatFolder {
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

  /**
   * The clock was set an hour forward between two starts a minute apart: by their dates there was
   * an hour to cool, and there was not.
   */
  @Test
  void aClockSetForwardBetweenTwoStartsHidesNothing() throws Exception {
    trial("20260314T090000Z", 8);
    trial("20260314T100100Z", 8);
    AnalyzeTraces analyze = new AnalyzeTraces(door, TraceAnalyzer::analyze, "1", 1);
    Batch believed = analyze.run(List.of(pump), InputChoice.DEFAULT, false, Progress.NONE);
    assertThat(codes(believed, 1)).doesNotContain("repeat-too-soon");
    now = NINE.plus(Duration.ofMinutes(62));
    keep().now(pump);
    HeatBook kept = HeatBookFile.read(pump);
    HeatBook.Entry first = kept.entry("20260314T090000Z");
    HeatBook.Entry second = kept.entry("20260314T100100Z");
    HeatBook moved =
        kept.withSteps(
                List.of(
                    new HeatBook.ClockStep(NINE.plus(Duration.ofMinutes(60)), 3600, true, null)))
            .with(List.of(first.keptAt(0), second.keptAt(1)));
    HeatBookFile.write(pump, moved);
    Batch known = analyze.run(List.of(pump), InputChoice.DEFAULT, false, Progress.NONE);
    assertThat(codes(known, 1)).contains("repeat-too-soon");
    assertThat(codes(known, 0)).doesNotContain("repeat-too-soon");
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
