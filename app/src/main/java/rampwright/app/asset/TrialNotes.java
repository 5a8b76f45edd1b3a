package rampwright.app.asset;

import java.time.Instant;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What a person says about a trial.
 *
 * @param at when it was made; null when not said
 * @param representative false: kept and shown, left out of fit and trend
 * @param reason why it is not representative, or any remark; empty when not said
 * @param corrected instants a person put right, by key, s on the trace's time base
 * @param correctionReason why; empty when nothing was corrected
 */
public record TrialNotes(
    @Nullable Instant at,
    boolean representative,
    String reason,
    Map<String, Double> corrected,
    String correctionReason) {
  /** Nothing was said. */
  public static final TrialNotes NONE = new TrialNotes(null, true, "", Map.of(), "");

  public TrialNotes {
    corrected = Collections.unmodifiableMap(new LinkedHashMap<>(corrected));
  }
}
