package rampwright.exam.years;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** A small sitting of the exam; the numbers of a large one are in {@code docs/trend.md}. */
class CausesExamTest {
  private static final int ASSETS = 8;
  private static final long SEED = 2;

  /** Of a cause's assets; the large sitting has about one in a hundred wrong. */
  private static final int MOST_WRONG = 1;

  @ParameterizedTest
  @EnumSource
  void leadsMostlyPointToTheCause(Cause cause) {
    int[] counts = new CausesExam(ASSETS, SEED).ask(cause);
    int asked = counts[0] + counts[1] + counts[2] + counts[3];
    assertThat(counts[3]).as("wrong").isLessThanOrEqualTo(MOST_WRONG);
    if (cause == Cause.NOTHING) {
      assertThat(counts[2]).as("silent").isEqualTo(asked);
    } else {
      assertThat(2 * (counts[0] + counts[1]))
          .as("right of %d", asked)
          .isGreaterThanOrEqualTo(asked);
    }
  }
}
