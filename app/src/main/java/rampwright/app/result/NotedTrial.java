package rampwright.app.result;

import org.jspecify.annotations.Nullable;
import rampwright.app.asset.AssetFile;
import rampwright.app.asset.SeenByHand;
import rampwright.app.asset.TrialFile;
import rampwright.app.envelope.Verdict;

/**
 * A trial noted by hand, without a trace. Nothing in it was measured by this program.
 *
 * @param file the settings file
 * @param asset the motor circuit; null when none was named
 * @param trial settings and notes
 * @param seen what was noted
 * @param verdict what was noted held against the envelope; null when there is no envelope. It does
 *     not count for the exit code
 */
public record NotedTrial(
    String file,
    @Nullable AssetFile asset,
    TrialFile trial,
    SeenByHand seen,
    @Nullable Verdict verdict)
    implements Entry {}
