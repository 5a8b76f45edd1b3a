package rampwright.analysis.fit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Two ways of explaining the same, whose probabilities are known in closed form. */
class PosteriorReferenceTest {
  private static final double WIDE_AT = -2;
  private static final double WIDE_SIGMA = 0.5;
  private static final double NARROW_AT = 2;
  private static final double NARROW_SIGMA = 0.1;

  /** Of squared residuals, by which the narrow valley's floor is higher. */
  private static final double HIGHER = 1;

  private static final int DRAWS = 96;

  /** One parameter; left of zero one normal curve, right of it another one, narrower and lower. */
  private static final Residuals TWO =
      new Residuals() {
        @Override
        public int size() {
          return 1;
        }

        @Override
        public double sigma(int parameter) {
          return 3;
        }

        @Override
        public boolean hasTrials() {
          return true;
        }

        @Override
        public double[] residuals(double[] p) {
          return p[0] < 0
              ? new double[] {(p[0] - WIDE_AT) / WIDE_SIGMA, 0}
              : new double[] {(p[0] - NARROW_AT) / NARROW_SIGMA, Math.sqrt(HIGHER)};
        }

        @Override
        public double[][] jacobian(double[] p, double[] at) {
          return new double[][] {{1 / (p[0] < 0 ? WIDE_SIGMA : NARROW_SIGMA)}, {0}};
        }
      };

  private static Posterior posterior(double... ends) {
    List<double[]> list = new java.util.ArrayList<>();
    for (double end : ends) {
      list.add(new double[] {end});
    }
    return new Posterior(TWO, Batch.IN_TURN, Valley.of(TWO, Batch.IN_TURN, list, Posterior.REACH));
  }

  /**
   * The probability in a normal curve of height exp(-c/2) and width s is proportional to s
   * exp(-c/2); of the logarithm half counts (module docs, fit.md). Widths 5 to 1 and a cost of 1:
   * sqrt(5 exp(1/2)) = 2.87 to 1, a share of 0.742, 71 of 96.
   */
  @Test
  void eachValleyHasTheShareOfItsEvidence() {
    List<double[]> draws = posterior(NARROW_AT, WIDE_AT).draws(new Random(5));
    assertThat(draws).hasSize(DRAWS);
    double odds = Math.sqrt(WIDE_SIGMA / NARROW_SIGMA * Math.exp(HIGHER / 2));
    long wide = draws.stream().filter(p -> p[0] < 0).count();
    assertThat(wide).isEqualTo(Math.round(DRAWS * odds / (1 + odds)));
  }

  /** Draws of 71 and 25: a standard deviation is met within a fifth, four standard errors. */
  @Test
  void drawsSpreadAsTheirValleyDoes() {
    List<double[]> draws = posterior(NARROW_AT, WIDE_AT).draws(new Random(5));
    assertThat(spread(draws, true)).isCloseTo(WIDE_SIGMA, within(0.4 * WIDE_SIGMA));
    assertThat(spread(draws, false)).isCloseTo(NARROW_SIGMA, within(0.4 * NARROW_SIGMA));
  }

  /** About the deepest: w2 (s2^2 + 4^2) + w1 s1^2. */
  @Test
  void theCovarianceHoldsTheDistanceOfTheValleys() {
    double odds = Math.sqrt(WIDE_SIGMA / NARROW_SIGMA * Math.exp(HIGHER / 2));
    double first = odds / (1 + odds);
    double apart = NARROW_AT - WIDE_AT;
    double expected =
        first * WIDE_SIGMA * WIDE_SIGMA
            + (1 - first) * (NARROW_SIGMA * NARROW_SIGMA + apart * apart);
    assertThat(posterior(WIDE_AT, NARROW_AT).covariance()[0][0]).isCloseTo(expected, within(1e-9));
    assertThat(posterior(WIDE_AT, NARROW_AT).best()[0]).isEqualTo(WIDE_AT);
  }

  /** Two descents that end in the same place are one explanation, not two. */
  @Test
  void aValleyFoundTwiceCountsOnce() {
    List<double[]> once = posterior(WIDE_AT, NARROW_AT).draws(new Random(7));
    List<double[]> twice = posterior(NARROW_AT, WIDE_AT, NARROW_AT).draws(new Random(7));
    assertThat(twice.stream().filter(p -> p[0] < 0).count())
        .isEqualTo(once.stream().filter(p -> p[0] < 0).count());
  }

  private static double spread(List<double[]> draws, boolean left) {
    double at = left ? WIDE_AT : NARROW_AT;
    return Math.sqrt(
        draws.stream()
            .mapToDouble(p -> p[0])
            .filter(x -> x < 0 == left)
            .map(x -> (x - at) * (x - at))
            .average()
            .orElse(Double.NaN));
  }
}
