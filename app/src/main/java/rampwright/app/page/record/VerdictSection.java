package rampwright.app.page.record;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.app.envelope.CorridorCheck;
import rampwright.app.envelope.LimitCheck;
import rampwright.app.envelope.Verdict;
import rampwright.app.wording.VerdictWords;

/** A verdict with every limit and corridor. */
final class VerdictSection {
  private VerdictSection() {}

  static RecordModel.Judged of(String heading, Verdict verdict) {
    List<RecordModel.Asked> asked = new ArrayList<>();
    for (LimitCheck check : verdict.limits()) {
      asked.add(
          new RecordModel.Asked(
              check.limit().figure().label(),
              VerdictWords.value(check),
              VerdictWords.allowed(check.limit()),
              VerdictWords.margin(check),
              kind(check.met()),
              VerdictWords.word(check.met()),
              check.isClose() ? "nearer to the limit than its uncertainty" : ""));
    }
    for (CorridorCheck check : verdict.corridors()) {
      String why = check.why();
      asked.add(
          new RecordModel.Asked(
              VerdictWords.name(check.corridor()),
              VerdictWords.value(check),
              VerdictWords.bound(check),
              VerdictWords.margin(check),
              kind(check.met()),
              VerdictWords.word(check.met()),
              check.marginPct() == null || why == null ? "" : why));
    }
    String why = verdict.why();
    return new RecordModel.Judged(
        heading,
        kind(verdict.met()),
        VerdictWords.word(verdict.met()),
        why == null ? "" : why,
        asked);
  }

  static String kind(@Nullable Boolean met) {
    return met == null ? "open" : met ? "accepted" : "refused";
  }
}
