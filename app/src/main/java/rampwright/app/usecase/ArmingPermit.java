package rampwright.app.usecase;

import java.nio.file.Path;
import java.time.Instant;

/** Says whether a motor's heat account allows the next start; the account stands behind it. */
@FunctionalInterface
public interface ArmingPermit {
  /** Where no account is kept: nothing is known, so nothing stands in the way. */
  ArmingPermit UNKNOWN = (folder, now) -> new Answer(true, "");

  /**
   * The answer.
   *
   * @param allowed whether a start may be armed
   * @param why what rules and when the next is allowed; a remark where it is allowed; may be empty
   */
  record Answer(boolean allowed, String why) {}

  /**
   * Asks.
   *
   * @param folder the asset folder
   */
  Answer ask(Path folder, Instant now) throws InputProblem;
}
