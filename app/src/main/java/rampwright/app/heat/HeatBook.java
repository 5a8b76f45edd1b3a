package rampwright.app.heat;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.heat.HeatStretch;

/**
 * What an asset folder keeps of its heat account.
 *
 * @param lastSeen latest moment the account was asked at; null before the first time
 * @param cold a person's words that the motor was cold
 * @param early starts a person armed before the account allowed them
 * @param traces what the recorded traces were found to hold
 */
public record HeatBook(
    @Nullable Instant lastSeen, List<Cold> cold, List<Early> early, List<Entry> traces) {
  /** A folder without a file. */
  public static final HeatBook EMPTY = new HeatBook(null, List.of(), List.of(), List.of());

  /**
   * A person's word that the motor was at ambient temperature.
   *
   * @param at when
   * @param by who says so
   */
  public record Cold(Instant at, String by) {}

  /**
   * A start armed before its time.
   *
   * @param at when
   * @param reason the word given for it
   * @param waitS how much of the wait was left, s; null when there was no time to be had
   * @param ruledBy the rule that asked to wait
   */
  public record Early(Instant at, String reason, @Nullable Double waitS, String ruledBy) {}

  /**
   * One trace.
   *
   * @param trial name of its folder
   * @param bytes size of the file, to know it again
   * @param modified when the file was last written, to know it again
   * @param at when its first reading was taken
   * @param datedBy how that is known
   * @param stretch what it holds
   */
  public record Entry(
      String trial, long bytes, Instant modified, Instant at, String datedBy, HeatStretch stretch) {
    /** When its last reading was taken. */
    public Instant end() {
      return at.plusMillis(Math.round(1000 * stretch.lastsS()));
    }
  }

  public HeatBook {
    cold = List.copyOf(cold);
    early = List.copyOf(early);
    traces = List.copyOf(traces);
  }

  /** The entry of a trial; null when it has none. */
  public @Nullable Entry entry(String trial) {
    return traces.stream().filter(entry -> entry.trial().equals(trial)).findFirst().orElse(null);
  }
}
