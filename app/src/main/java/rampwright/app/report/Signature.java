package rampwright.app.report;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * A person's name under a record, and what it stood under.
 *
 * @param name who signed
 * @param role as what; null where not said
 * @param note anything to add; null for nothing
 * @param despite why it was signed although something stood against it; null where nothing did
 * @param against what stood against it, in words; null where nothing did
 * @param at when
 * @param zone whose clocks the people there went by
 * @param state how the record stood, in the words of {@link Standing.State}
 * @param trial the trial that decided so; null where there was none
 * @param sha256 the sum over what was signed
 * @param seal what was signed
 */
public record Signature(
    String name,
    @Nullable String role,
    @Nullable String note,
    @Nullable String despite,
    @Nullable String against,
    Instant at,
    String zone,
    String state,
    @Nullable String trial,
    String sha256,
    Seal seal) {

  /** Whether its sum is that of its own list of files. */
  public boolean isWhole() {
    return seal.sha256().equals(sha256);
  }
}
