package rampwright.app.usecase;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;

/** Says whether a motor's heat account allows the next start; the account stands behind it. */
@FunctionalInterface
public interface ArmingPermit {
  /** Where no account is kept: nothing is known, so nothing stands in the way. */
  ArmingPermit UNKNOWN = folder -> new Answer(true, "", null);

  /**
   * The answer.
   *
   * @param allowed whether a start may be armed
   * @param why what rules, when the next is allowed and what can be done; a remark where it is
   *     allowed; may be empty
   * @param account what the account said; null where there is none
   */
  record Answer(boolean allowed, String why, KeepHeat.@Nullable Arming account) {}

  /**
   * Asks.
   *
   * @param folder the asset folder
   */
  Answer ask(Path folder) throws InputProblem;

  /**
   * Keeps in the account that a start is armed against its answer.
   *
   * @throws InputProblem when that cannot be written
   */
  default void recordEarly(Path folder, Answer asked, String reason)
      throws InputProblem, UsageProblem {
    // Where no account is kept there is nothing to keep it in.
  }
}
