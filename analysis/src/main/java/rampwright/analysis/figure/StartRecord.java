package rampwright.analysis.figure;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.quantity.Measured;

/**
 * One start and the stop that followed it.
 *
 * @param outcome how the start ended
 * @param instants {@code inception_s}, {@code breakaway_s}, {@code full_speed_s}, {@code knee_s},
 *     {@code bypass_s}, {@code settled_s}: each an instant on the trace's time base, or missing
 *     with its reason
 * @param figures figures by key, in the order of the definitions
 * @param stop the stop, or null when the record shows none
 */
public record StartRecord(
    Outcome outcome,
    Map<String, Measured> instants,
    Map<String, Measured> figures,
    @Nullable StopRecord stop) {
  public StartRecord {
    instants = Collections.unmodifiableMap(new LinkedHashMap<>(instants));
    figures = Collections.unmodifiableMap(new LinkedHashMap<>(figures));
  }
}
