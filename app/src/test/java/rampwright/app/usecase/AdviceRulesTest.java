package rampwright.app.usecase;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import rampwright.app.advice.Advice;
import rampwright.app.advice.Advice.Status;

class AdviceRulesTest {
  private static final Advice.Change CHANGE = new Advice.Change("ramp_up_s", "5 s", "6 s", "why");

  @Test
  void aChangeOfNothingIsToKeep() {
    assertThat(AdviceRules.status(Status.CHANGE, List.of(), true, true)).isEqualTo(Status.KEEP);
    assertThat(AdviceRules.status(Status.CHANGE, List.of(CHANGE), true, true))
        .isEqualTo(Status.CHANGE);
    assertThat(AdviceRules.status(Status.CHANGE, List.of(), false, true))
        .as("before the first trial there is nothing to keep")
        .isEqualTo(Status.CHANGE);
    assertThat(AdviceRules.status(Status.CANNOT_MEET, List.of(), true, true))
        .isEqualTo(Status.CANNOT_MEET);
  }

  @Test
  void whatIsNotLikelyToDoIsNotKeptForWantOfBetter() {
    assertThat(AdviceRules.status(Status.CHANGE, List.of(), true, false))
        .isEqualTo(Status.NEED_ANOTHER_TRIAL);
    assertThat(AdviceRules.status(Status.CHANGE, List.of(CHANGE), true, false))
        .isEqualTo(Status.CHANGE);
  }

  @Test
  void whatCannotBeNegativeIsNotPredictedSo() {
    Advice.Range range = new Advice.Range(0.05, -0.04, 0.4);
    assertThat(AdviceRules.possible("breakaway_delay_s", range))
        .isEqualTo(new Advice.Range(0.05, 0, 0.4));
    assertThat(AdviceRules.possible("pressure_min_bar", range)).isEqualTo(range);
  }
}
