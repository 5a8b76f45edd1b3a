package rampwright.analysis.trace;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Where a trace came from and what was made of it on the way in.
 *
 * @param source file name or device, for messages
 * @param sha256 lower-case hex SHA-256 of the source's bytes; empty when there were none
 * @param startUtc instant of the trace's time 0 as ISO 8601 in UTC, where the source tells it
 * @param understood how each column or register was read: channel, unit, factor; one line each
 * @param warnings what had to be left out or mended, with its place; one line each
 * @param notes comment lines of the source, as they were
 */
public record Provenance(
    String source,
    String sha256,
    @Nullable String startUtc,
    List<String> understood,
    List<String> warnings,
    List<String> notes) {
  public Provenance {
    understood = List.copyOf(understood);
    warnings = List.copyOf(warnings);
    notes = List.copyOf(notes);
  }

  /** A trace that was computed, not read. */
  public static Provenance computed(String source) {
    return new Provenance(source, "", null, List.of(), List.of(), List.of());
  }
}
