package rampwright.app.report;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.app.asset.TrialFile;
import rampwright.app.result.Entry;
import rampwright.app.result.NotedTrial;
import rampwright.app.result.TrialResult;

/**
 * One trial of a record.
 *
 * @param name its folder
 * @param at when it was made; null where nothing tells
 * @param datedBy how that is known
 * @param entry what came of it
 * @param settings what was set, each with what was set in the trial before
 * @param curves what is drawn of its starts, in their order; empty where there is no trace
 * @param files its files with their sums
 */
public record ReportTrial(
    String name,
    @Nullable Instant at,
    String datedBy,
    Entry entry,
    List<SettingRow> settings,
    List<TrialCurves> curves,
    List<SealedFile> files) {
  public ReportTrial {
    settings = List.copyOf(settings);
    curves = List.copyOf(curves);
    files = List.copyOf(files);
  }

  /** What a person wrote of it; nothing where it could not be read. */
  public TrialFile notes() {
    if (entry instanceof TrialResult result) {
      return result.trial();
    }
    return entry instanceof NotedTrial noted ? noted.trial() : TrialFile.NONE;
  }

  /**
   * Whether it may decide how the record stands: it has a trace, and nobody marked it not
   * representative. One that could not be read may: nobody knows what it would say.
   */
  public boolean counts() {
    return !(entry instanceof NotedTrial) && notes().notes().representative();
  }
}
