package rampwright.app.report;

import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.app.asset.AssetFile;
import rampwright.app.asset.SiteTime;
import rampwright.app.envelope.Verdict;
import rampwright.app.result.FailedTrial;
import rampwright.app.result.TrialResult;
import rampwright.app.wording.VerdictWords;

/**
 * How a record stands: what the envelope says of the last trial that counts.
 *
 * @param state in a word
 * @param trial the trial that decides; null where there is none
 * @param sentence the same in a sentence
 */
public record Standing(State state, @Nullable String trial, String sentence) {
  /** How it stands. */
  public enum State {
    ACCEPTED("accepted"),
    NOT_ACCEPTED("not accepted"),
    NOT_JUDGED("not yet judged");

    private final String key;

    State(String key) {
      this.key = key;
    }

    /** Word used on pages, in files and in JSON. */
    public String key() {
      return key;
    }
  }

  /**
   * How trials stand.
   *
   * @param trials in order of time
   */
  public static Standing of(Had<AssetFile> asset, List<ReportTrial> trials, SiteTime site) {
    ReportTrial last = null;
    for (ReportTrial trial : trials) {
      last = trial.counts() ? trial : last;
    }
    AssetFile file = asset.value();
    if (file == null) {
      return notJudged(last, "asset.toml cannot be read, so nothing is known to be asked");
    }
    if (last == null) {
      return notJudged(
          null,
          trials.isEmpty()
              ? "no trial was made yet"
              : "no trial counts: all are noted by hand or marked not representative");
    }
    String on = "trial " + last.name() + (last.at() == null ? "" : " of " + site.text(last.at()));
    if (last.entry() instanceof FailedTrial) {
      return notJudged(last, on + " is the last one and cannot be read");
    }
    if (file.asset().envelope().isEmpty()) {
      return notJudged(last, "asset.toml has no [envelope], so nothing is asked of " + on);
    }
    Verdict verdict = last.entry() instanceof TrialResult result ? result.worst() : null;
    if (verdict == null) {
      return notJudged(last, on + " shows no start");
    }
    String decisive = VerdictWords.decisive(verdict);
    if (verdict instanceof Verdict.Met) {
      return new Standing(State.ACCEPTED, last.name(), on + " meets everything the envelope asks");
    }
    return verdict instanceof Verdict.Missed
        ? new Standing(State.NOT_ACCEPTED, last.name(), on + " " + decisive)
        : notJudged(last, on + " is " + decisive);
  }

  private static Standing notJudged(@Nullable ReportTrial trial, String why) {
    return new Standing(State.NOT_JUDGED, trial == null ? null : trial.name(), why);
  }
}
