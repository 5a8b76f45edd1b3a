package rampwright.app.envelope;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import rampwright.analysis.figure.Outcome;
import rampwright.analysis.figure.StartRecord;
import rampwright.app.fixture.MadeUp;

/** A start that did not come up to speed never reads as success, whatever its figures. */
class FailedStartVerdictTest {
  private static final Limit WIDE = new Limit(FigureKey.PEAK_CURRENT_RATIO, null, 9.0);
  private static final Limit NARROW = new Limit(FigureKey.PEAK_CURRENT_RATIO, null, 2.0);

  private static Verdict judge(Outcome outcome, Limit... limits) {
    StartRecord whole =
        MadeUp.start(Map.of("peak_current_ratio", 3.0), Map.of("controlled_time_s", 0.0));
    StartRecord start = new StartRecord(outcome, whole.instants(), whole.figures(), whole.stop());
    return Judge.judge(
        new Envelope(List.of(limits), List.of()), start, MadeUp.track(), MadeUp.MOTOR);
  }

  @Test
  void aStalledStartHasMissedEvenWithEveryLimitMet() {
    Verdict verdict = judge(Outcome.STALLED, WIDE);
    assertThat(verdict.limits().get(0).met()).isTrue();
    assertThat(verdict.met()).isFalse();
    assertThat(verdict.why()).isEqualTo("the start stalled: full speed was not reached");
  }

  @Test
  void anAbortedStartIsNotAssessableAtBest() {
    assertThat(judge(Outcome.ABORTED, WIDE).met()).isNull();
    assertThat(judge(Outcome.ABORTED, WIDE).why()).contains("aborted");
    assertThat(judge(Outcome.ABORTED, NARROW).met()).isFalse();
    assertThat(judge(Outcome.CUT_OFF, WIDE).met()).isNull();
    assertThat(judge(Outcome.CUT_OFF, WIDE).why()).contains("record ends");
  }

  @Test
  void aCompletedStartIsJudgedByItsFiguresAlone() {
    assertThat(judge(Outcome.COMPLETED, WIDE).met()).isTrue();
    assertThat(judge(Outcome.COMPLETED, WIDE).why()).isNull();
    assertThat(judge(Outcome.COMPLETED, NARROW).met()).isFalse();
  }

  @Test
  void theEndOfAFailedStartIsNoStop() {
    Limit stop = new Limit(FigureKey.CONTROLLED_TIME, 5.0, null);
    assertThat(judge(Outcome.COMPLETED, stop).limits().get(0).met()).isFalse();
    LimitCheck aborted = judge(Outcome.ABORTED, stop).limits().get(0);
    assertThat(aborted.met()).isNull();
    assertThat(aborted.why()).isEqualTo("the start was aborted: no stop from the run");
    assertThat(judge(Outcome.ABORTED, stop).met()).isNull();
  }
}
