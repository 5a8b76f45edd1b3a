package rampwright.app.result;

import java.util.List;
import rampwright.app.envelope.Verdict;

/**
 * What became of many trials, in the order they were given.
 *
 * @param entries one for each
 * @param single whether the person named one trace rather than a folder or several
 */
public record Batch(List<Entry> entries, boolean single) {
  public Batch {
    entries = List.copyOf(entries);
  }

  /** The trials that have figures. */
  public List<TrialResult> results() {
    return entries.stream()
        .filter(TrialResult.class::isInstance)
        .map(TrialResult.class::cast)
        .toList();
  }

  /** The trials that could not be read. */
  public List<FailedTrial> failures() {
    return entries.stream()
        .filter(FailedTrial.class::isInstance)
        .map(FailedTrial.class::cast)
        .toList();
  }

  /** How it went as a whole: the worst of all. */
  public Standing standing() {
    if (!failures().isEmpty()) {
      return Standing.FAILED;
    }
    List<Verdict> verdicts =
        results().stream().flatMap(result -> result.verdicts().stream()).toList();
    if (verdicts.stream().anyMatch(Verdict.Missed.class::isInstance)) {
      return Standing.MISSED;
    }
    // A trial with an envelope and without a start leaves the question open.
    boolean open =
        verdicts.stream().anyMatch(Verdict.NotAssessable.class::isInstance)
            || results().stream().anyMatch(Batch::hasUnansweredEnvelope);
    return open ? Standing.NOT_ASSESSABLE : Standing.DONE;
  }

  private static boolean hasUnansweredEnvelope(TrialResult result) {
    return result.asset() != null
        && !result.asset().asset().envelope().isEmpty()
        && result.verdicts().isEmpty();
  }

  /** The outcome of a whole run. */
  public enum Standing {
    /** Everything was read, and every envelope compared was met. */
    DONE,
    MISSED,
    NOT_ASSESSABLE,
    /** At least one trial could not be read. */
    FAILED
  }
}
