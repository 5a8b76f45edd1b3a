package rampwright.app.usecase;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;

/**
 * One trial to be looked at.
 *
 * @param shown what to call it: the file as the person gave it
 * @param trace the trace; null for a trial noted by hand
 * @param assetFile null when none is known
 * @param settingsFile null when none is known
 * @param figuresTarget where its figures are kept; null when they are not
 * @param problem why it cannot be looked at; null when it can
 */
record TrialJob(
    String shown,
    @Nullable Path trace,
    @Nullable Path assetFile,
    @Nullable Path settingsFile,
    @Nullable Path figuresTarget,
    @Nullable String problem) {

  static TrialJob broken(String shown, String problem) {
    return new TrialJob(shown, null, null, null, null, problem);
  }
}
