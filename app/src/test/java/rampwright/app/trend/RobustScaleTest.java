package rampwright.app.trend;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.api.Assertions.withinPercentage;

import java.util.Arrays;
import java.util.Random;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;
import org.hipparchus.stat.descriptive.rank.Median;
import org.junit.jupiter.api.Test;

/**
 * Medians are guessed at first and narrowed; against Hipparchus, to the rounding of the mean of
 * two.
 */
class RobustScaleTest {
  private static final int[] SIZES = {1, 2, 3, 10, 127, 128, 129, 130, 150, 151, 400, 501, 5000};

  private static void isMedian(IntToDoubleFunction value) {
    for (int n : SIZES) {
      double[] values = IntStream.range(0, n).mapToDouble(value).toArray();
      double[] before = values.clone();
      assertThat(RobustScale.median(values))
          .as("of %d", n)
          .isCloseTo(new Median().evaluate(values), withinPercentage(1e-13));
      assertThat(values).as("left as they were").isEqualTo(before);
    }
  }

  @Test
  void ofAnyOrderAndTies() {
    Random chance = new Random(4);
    isMedian(i -> chance.nextGaussian());
    isMedian(i -> chance.nextInt(5));
    isMedian(i -> i);
    isMedian(i -> -i * 0.1);
    isMedian(i -> 7);
    isMedian(i -> i % 2 == 0 ? 1 : -1);
    isMedian(i -> Math.exp(20 * chance.nextGaussian()));
  }

  @Test
  void whereEveryFewMislead() {
    // what the guess looks at is far from all others
    isMedian(i -> i % (501 / 32) == 0 ? 1e6 + i : i * 37 % 101);
    isMedian(i -> i % (400 / 32) == 0 ? -1e6 - i : i * 37 % 101);
  }

  @Test
  void selectsAnyRank() {
    Random chance = new Random(5);
    double[] values = chance.doubles(700).toArray();
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    for (int k = 0; k < sorted.length; k += 33) {
      assertThat(RobustScale.select(values.clone(), k)).isEqualTo(sorted[k]);
    }
  }

  @Test
  void weighsFarValuesOfQuietNeighboursLess() {
    double[] values = {0, 0.1, -0.1, 0.05, 3, 0, 0.1, -0.05, 0, 0.1};
    double[] weights = RobustScale.weights(values, 0.1, 4, 3);
    // 3 less the median of its eight neighbours, 0, against a reach of 0.3
    assertThat(weights[4]).isCloseTo(Math.pow(0.3 / 3, 2), within(1e-12));
    weights[4] = 1;
    assertThat(weights).containsOnly(1);
  }
}
