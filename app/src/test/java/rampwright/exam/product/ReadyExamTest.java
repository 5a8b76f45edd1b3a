package rampwright.exam.product;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.function.Predicate;
import org.junit.jupiter.api.Test;
import rampwright.app.ready.ReadyLine;

/**
 * Readiness before the first trial against plants that are not the product's model: a hold is
 * evidence, an ok is kept.
 */
class ReadyExamTest {
  private static final String STARTS = "settings start the load";
  private static final int GOOD = 48;
  private static final int BAD = 30;

  /** A hold says that 95 % of the machines fail: of 48 good ones 2 may be held by bad luck. */
  private static final int FALSE_HOLDS = 2;

  /** An ok says that 95 % start: of 30 bad ones 2 may be let through by bad luck. */
  private static final int MISSED = 2;

  @Test
  void aHoldIsEvidenceAndAnOkIsKept() {
    List<ReadyExam.Case> cases = new ReadyExam(1).cases(GOOD, BAD);
    assertThat(cases).hasSize(GOOD + BAD);
    assertThat(cases)
        .filteredOn(one -> one.good() && !one.holds().isEmpty())
        .as("good ones held, by any line")
        .hasSizeLessThanOrEqualTo(FALSE_HOLDS);
    assertThat(cases)
        .filteredOn(bad(state -> state == ReadyLine.State.OK))
        .as("bad ones let through")
        .hasSizeLessThanOrEqualTo(MISSED);
    // No weaker than it was found to be over nine hundred plants: 64 % of the bad ones are held.
    assertThat(cases)
        .filteredOn(bad(state -> state == ReadyLine.State.HOLD))
        .as("bad ones held")
        .hasSizeGreaterThanOrEqualTo(BAD / 2);
    assertThat(cases)
        .filteredOn(one -> one.good() && one.line(STARTS).state() == ReadyLine.State.OK)
        .as("good ones called ok: it is not all doubt")
        .hasSizeGreaterThanOrEqualTo(GOOD / 3);
  }

  private static Predicate<ReadyExam.Case> bad(Predicate<ReadyLine.State> state) {
    return one -> !one.good() && state.test(one.line(STARTS).state());
  }
}
