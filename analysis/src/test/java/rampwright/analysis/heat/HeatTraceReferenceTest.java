package rampwright.analysis.heat;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import rampwright.analysis.figure.AnalyzedTrace;
import rampwright.analysis.figure.MotorContext;
import rampwright.analysis.figure.Practice;

/** Pieces of a trace against closed forms and traces of known truth. */
class HeatTraceReferenceTest {
  /** An edge lies within half a reading; of a start of 8 s at 50 Hz that is 0.1 %. */
  private static final double EDGE = 0.002;

  /** 1 s rest, 8 s at 3.5 x, then 0.7 x: i2t of the start is 8 x 12.25. */
  @Test
  void aMadeStartGivesItsIntegral() {
    AnalyzedTrace trace = Practice.made(20, 50, t -> t < 1 ? 0 : t < 9 ? 350 : t < 16 ? 70 : 0);
    HeatStretch stretch = HeatTrace.of(trace, 100);
    assertThat(stretch.lastsS()).isCloseTo(20, within(1e-9));
    assertThat(stretch.flowsAtEnd()).isFalse();
    assertThat(stretch.starts()).hasSize(1);
    double slip = integral(stretch.piecesOf(stretch.starts().get(0)));
    assertThat(slip).isCloseTo(8 * 12.25, within(0.01 * 8 * 12.25));
    double all = integral(stretch.pieces());
    double truth = 8 * 12.25 + 7 * 0.49;
    assertThat(all).isCloseTo(truth, within(EDGE * truth));
    assertThat(stretch.pieces().get(0).state()).isEqualTo(HeatPiece.State.REST);
  }

  @Test
  void aTraceThatEndsRunningSaysSo() {
    HeatStretch stretch =
        HeatTrace.of(Practice.made(20, 50, t -> t < 1 ? 0 : t < 9 ? 350 : 70), 100);
    assertThat(stretch.flowsAtEnd()).isTrue();
    assertThat(stretch.endSquare()).isCloseTo(0.49, within(1e-9));
  }

  @Test
  void aTraceThatEndsStartingIsCutOff() {
    HeatStretch stretch = HeatTrace.of(Practice.made(6, 50, t -> t < 1 ? 0 : 350), 100);
    assertThat(stretch.starts().get(0).cutOff()).isTrue();
    assertThat(stretch.endSquare()).as("not stalled for ever").isEqualTo(1);
  }

  /**
   * The practice trials: integral of the highest phase's square over the start against the truth's
   * mean of the phases. The highest phase is above the mean (phases differ by about 1 % of current,
   * 2 % of its square; meters by 0.4 %), and the end of the start is taken its own uncertainty
   * later, on purpose: where full speed is dated from current that is some percent of the start. So
   * never more than 2 % below the truth, up to a fifth above, and 5 % at the median.
   */
  @Test
  void theIntegralIsTheTruths() throws IOException {
    Optional<Path> folder = Practice.folder();
    assumeTrue(folder.isPresent(), "no practice traces beside this checkout");
    List<Path> trials;
    try (Stream<Path> all = Files.walk(folder.get(), 3)) {
      trials = all.filter(p -> Files.isRegularFile(p.resolve("truth.json"))).sorted().toList();
    }
    double[] ratios = new double[trials.size()];
    int n = 0;
    for (Path trial : trials) {
      Path trace = trial.resolve("trace.csv");
      Path asset = trial.resolve("../..").normalize();
      if (!Files.exists(trace) || !Files.exists(asset.resolve("asset.toml"))) {
        continue;
      }
      MotorContext motor = Practice.motor(asset);
      Map<String, double[]> truth = Practice.truth(trial);
      if (truth.get("completed")[0] != 1) {
        continue;
      }
      HeatStretch stretch = HeatTrace.of(Practice.analyze(trace, motor), motor.ratedCurrentA());
      assertThat(stretch.starts()).as(trial.toString()).hasSize(1);
      double i2t = integral(stretch.piecesOf(stretch.starts().get(0)));
      double ratio = i2t / truth.get("i2t_ratio_s")[0];
      assertThat(ratio).as(trial.toString()).isBetween(0.98, 1.20);
      ratios[n++] = ratio;
    }
    assertThat(n).isGreaterThan(25);
    double[] sorted = java.util.Arrays.copyOf(ratios, n);
    java.util.Arrays.sort(sorted);
    assertThat(sorted[n / 2]).isBetween(1.0, 1.05);
  }

  private static double integral(List<HeatPiece> pieces) {
    return pieces.stream().mapToDouble(p -> p.square() * p.lastsS()).sum();
  }
}
