package rampwright.app.result;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import rampwright.analysis.figure.StartRecord;
import rampwright.app.asset.TrialFile;
import rampwright.app.fixture.MadeUp;

class ComparisonTest {
  private static TrialResult trial(StartRecord... starts) {
    return new TrialResult(
        "t",
        TraceFacts.of(MadeUp.trace()),
        null,
        TrialFile.NONE,
        MadeUp.figures(starts),
        List.of(),
        "1",
        List.of());
  }

  private static Comparison.Row row(double a, double b) {
    return Comparison.of(
            trial(MadeUp.start(Map.of("start_time_s", a), null)),
            trial(MadeUp.start(Map.of("start_time_s", b), null)))
        .rows()
        .get(0);
  }

  @Test
  void differencesAddTheirUncertaintiesInSquares() {
    // Both figures carry 0.02; JCGM 100, 5.1.2: sqrt(0.02^2 + 0.02^2).
    Comparison.Row row = row(8, 8.04);
    assertThat(row.uncertainty()).isCloseTo(0.02 * Math.sqrt(2), within(1e-15));
    assertThat(row.differencePct()).isCloseTo(0.5, within(1e-9));
    assertThat(row.beyondUncertainty()).isFalse();
    assertThat(row(8, 8.06).beyondUncertainty()).isTrue();
    assertThat(row(8, 7.94).beyondUncertainty()).isTrue();
  }

  @Test
  void fromZeroThereIsNoPercentage() {
    assertThat(row(0, 1).differencePct()).isNull();
    assertThat(row(0, 1).difference()).isEqualTo(1.0);
  }

  @Test
  void aFigureOfOneAloneSaysWhichLacksIt() {
    Comparison comparison =
        Comparison.of(
            trial(MadeUp.start(Map.of("start_time_s", 8.0), null)),
            trial(MadeUp.start(Map.of("run_current_A", 9.0), null)));
    assertThat(comparison.rows())
        .extracting(Comparison.Row::why)
        .containsExactly("second: not in this trace", "first: not in this trace");
  }

  @Test
  void withoutAStartThereIsNothingToCompare() {
    assertThat(Comparison.of(trial(), trial(MadeUp.start(Map.of(), null))).rows()).isEmpty();
  }
}
