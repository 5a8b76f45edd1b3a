package rampwright.analysis.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import java.util.function.IntToDoubleFunction;
import org.junit.jupiter.api.Test;

/** Courses whose largest value is known, with seeded noise. */
class NoisyExtremeTest {
  private static final int LENGTH = 400;
  private static final double SIGMA = 0.3;

  private static double[] noisy(IntToDoubleFunction course, long seed) {
    Random random = new Random(seed);
    double[] out = new double[LENGTH];
    Arrays.setAll(out, k -> course.applyAsDouble(k) + SIGMA * random.nextGaussian());
    return out;
  }

  private static double meanError(IntToDoubleFunction course, double truth) {
    double sum = 0;
    int runs = 200;
    for (int seed = 0; seed < runs; seed++) {
      sum += NoisyExtreme.largest(noisy(course, seed), 0, LENGTH, SIGMA).value() - truth;
    }
    return sum / runs;
  }

  /**
   * The largest of 400 normal values lies 2.96 standard deviations high (D. Teichroew's tables of
   * normal order statistics, from memory), 0.89 here; a tenth of a reading's noise may be left of
   * it on a plateau, where places for the widest window are many.
   */
  @Test
  void aPlateauIsNotRaisedByItsNoise() {
    assertThat(meanError(k -> k < 100 ? k : 100, 100)).isBetween(0.0, 0.7 * SIGMA);
  }

  /** A parabola of 100 readings to a fall of 25: fitted exactly, up to where its top is sought. */
  @Test
  void aRoundedTopIsNotFlattened() {
    assertThat(meanError(k -> 100 - 0.01 * (k - 200) * (k - 200), 100))
        .isCloseTo(0, within(0.7 * SIGMA));
  }

  /** Three readings wide: narrower than any window, so it stays the largest reading. */
  @Test
  void aNarrowPeakStaysAsItIs() {
    double[] values = noisy(k -> Math.abs(k - 200) <= 1 ? 110 : 100, 3);
    NoisyExtreme.Largest found = NoisyExtreme.largest(values, 0, LENGTH, SIGMA);
    assertThat(found.readings()).isEqualTo(1);
    assertThat(found.value()).isEqualTo(Arrays.stream(values).max().orElseThrow());
  }

  /** Seven readings high, a tenth of that noise: what is taken off stays below its noise. */
  @Test
  void aShortSurgeKeepsItsHeight() {
    assertThat(meanError(k -> Math.abs(k - 200) <= 3 ? 110 : 100, 110))
        .isBetween(-0.5 * SIGMA, 1.5 * SIGMA);
  }

  @Test
  void gapsAndEndsAreNotSmoothedOver() {
    double[] values = noisy(k -> 100, 5);
    values[200] = Double.NaN;
    assertThat(NoisyExtreme.largest(values, 198, 203, SIGMA).readings()).isEqualTo(1);
    assertThat(NoisyExtreme.largest(new double[] {Double.NaN}, 0, 1, SIGMA).value()).isNaN();
    assertThat(NoisyExtreme.largest(new double[] {1, 5, 2}, 0, 3, SIGMA).value()).isEqualTo(5);
  }

  @Test
  void theSmallestIsTheLargestTurnedRound() {
    double[] values = noisy(k -> 100 + 0.01 * (k - 200) * (k - 200), 7);
    double[] turned = Arrays.stream(values).map(v -> -v).toArray();
    assertThat(NoisyExtreme.smallest(values, 0, LENGTH, SIGMA).value())
        .isEqualTo(-NoisyExtreme.largest(turned, 0, LENGTH, SIGMA).value());
  }
}
