package rampwright.app.cli;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.app.envelope.CorridorCheck;
import rampwright.app.envelope.LimitCheck;
import rampwright.app.envelope.Verdict;
import rampwright.app.wording.VerdictWords;

/** A verdict in words. */
final class VerdictText {
  private VerdictText() {}

  static void print(Screen screen, String title, Verdict verdict) {
    screen.line("");
    String against = verdict.why();
    screen.line(
        title
            + ": "
            + verdict.word().toUpperCase(Locale.ROOT)
            + (against == null ? "" : ": " + against));
    TextTable table =
        new TextTable("  ", "lrlwl", "asked", "value", "allowed", "margin", "verdict");
    for (LimitCheck check : verdict.limits()) {
      table.row(
          check.limit().figure().label(),
          VerdictWords.value(check),
          VerdictWords.allowed(check.limit()),
          VerdictWords.margin(check),
          VerdictWords.word(check.met()));
      table.under(check.isClose() ? "nearer to the limit than its uncertainty" : null);
    }
    for (CorridorCheck check : verdict.corridors()) {
      table.row(
          VerdictWords.name(check.corridor()),
          VerdictWords.value(check),
          VerdictWords.bound(check),
          VerdictWords.margin(check),
          VerdictWords.word(check.met()));
      table.under(check.marginPct() == null ? null : check.why());
    }
    screen.table(table);
  }

  /** The verdict in a word; a dash where there is none. */
  static String word(@Nullable Verdict verdict) {
    return verdict == null ? "-" : VerdictWords.word(verdict.met());
  }

  /** What decides a verdict that is not met, limits and corridors by name; null when it is met. */
  static @Nullable String decisive(@Nullable Verdict verdict) {
    return VerdictWords.decisive(verdict);
  }
}
