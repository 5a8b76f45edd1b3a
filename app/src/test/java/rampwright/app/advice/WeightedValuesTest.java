package rampwright.app.advice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.hipparchus.stat.descriptive.rank.Percentile;
import org.hipparchus.stat.descriptive.rank.Percentile.EstimationType;
import org.junit.jupiter.api.Test;

class WeightedValuesTest {
  // Sums of 41 weights, each to the last place.
  private static final double ROUNDING = 1e-12;

  /** Reference: Hipparchus, Percentile, type 7 of Hyndman and Fan. */
  @Test
  void weightsAlikeGiveTheUsualQuantile() {
    Random random = new Random(8);
    double[] plain = random.doubles(41).toArray();
    WeightedValues values = new WeightedValues();
    for (double value : plain) {
      values.add(value, 0.3);
    }
    Percentile percentile = new Percentile().withEstimationType(EstimationType.R_7);
    for (double share : new double[] {0.03, 0.05, 0.5, 0.77, 0.95, 1}) {
      assertThat(values.at(share))
          .isCloseTo(percentile.evaluate(plain, 100 * share), within(ROUNDING));
    }
  }

  @Test
  void whatCountsForNothingMovesNothing() {
    WeightedValues values = new WeightedValues();
    for (int k = 0; k <= 10; k++) {
      values.add(k, 1);
      values.add(100 + k, 1e-9);
    }
    assertThat(values.at(0.5)).isCloseTo(5, within(0.3));
    assertThat(values.weight()).isCloseTo(11, within(1e-6));
  }

  @Test
  void noValuesHaveNoQuantile() {
    assertThatThrownBy(() -> new WeightedValues().at(0.5))
        .isInstanceOf(IllegalStateException.class);
  }
}
