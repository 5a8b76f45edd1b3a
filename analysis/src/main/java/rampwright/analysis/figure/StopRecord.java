package rampwright.analysis.figure;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import rampwright.analysis.quantity.Measured;

/**
 * One stop.
 *
 * @param kind soft, coast, or cut off by the end of the record
 * @param instants {@code stop_begin_s}, {@code release_s}, {@code rest_s}: each an instant on the
 *     trace's time base, or missing with its reason
 * @param figures figures by key, in the order of the definitions
 */
public record StopRecord(
    StopKind kind, Map<String, Measured> instants, Map<String, Measured> figures) {
  public StopRecord {
    instants = Collections.unmodifiableMap(new LinkedHashMap<>(instants));
    figures = Collections.unmodifiableMap(new LinkedHashMap<>(figures));
  }
}
