package rampwright.app.logbook;

import java.time.Instant;
import java.util.Arrays;
import java.util.Collections;
import java.util.Map;
import java.util.TreeMap;

/**
 * One start as it is kept. Never changed: a correction is a new entry that names the old one.
 *
 * @param asset id of the motor circuit
 * @param at when the start was made
 * @param settings any label that changes when the settings do
 * @param outcome of the start, empty where it is not known
 * @param counts false for a start that is kept and shown but not representative
 * @param reason why it does not count
 * @param note of a person
 * @param author who noted it
 * @param source where it came from, in words
 * @param toolVersion that made the figures
 * @param traceSha256 of the trace, as its result carries it; empty without a trace
 * @param trace the trace's file; empty where it is not kept
 * @param figures by key
 */
public record LogEntry(
    String asset,
    Instant at,
    String settings,
    String outcome,
    boolean counts,
    String reason,
    String note,
    String author,
    String source,
    String toolVersion,
    String traceSha256,
    byte[] trace,
    Map<String, LoggedFigure> figures) {

  public LogEntry {
    trace = trace.clone();
    figures = Collections.unmodifiableMap(new TreeMap<>(figures));
  }

  @Override
  public byte[] trace() {
    return trace.clone();
  }

  /** Value of a figure; NaN where the start lacks it. */
  public double value(String figure) {
    LoggedFigure found = figures.get(figure);
    return found == null ? Double.NaN : found.value();
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof LogEntry entry
        && Fingerprint.of(this).equals(Fingerprint.of(entry))
        && Arrays.equals(trace, entry.trace);
  }

  @Override
  public int hashCode() {
    return Fingerprint.of(this).hashCode();
  }
}
