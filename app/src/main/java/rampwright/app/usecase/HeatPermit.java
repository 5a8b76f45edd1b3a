package rampwright.app.usecase;

import java.nio.file.Path;
import java.util.function.Function;
import rampwright.app.result.HeatResult;

/** Asks the heat account before a start is armed. */
public final class HeatPermit implements ArmingPermit {
  private final KeepHeat heat;
  private final Function<HeatResult, String> words;

  /**
   * A permit.
   *
   * @param words the account's answer in a line
   */
  public HeatPermit(KeepHeat heat, Function<HeatResult, String> words) {
    this.heat = heat;
    this.words = words;
  }

  @Override
  public Answer ask(Path folder) throws InputProblem {
    KeepHeat.Arming arming;
    try {
      arming = heat.arming(folder);
    } catch (UsageProblem e) {
      return new Answer(true, "no heat account: " + e.getMessage(), null);
    }
    return arming.allowed()
        ? new Answer(true, "", arming)
        : new Answer(false, why(folder, arming.result()), arming);
  }

  /** A wait that rests on nothing but the worst being assumed says how to do better. */
  private String why(Path folder, HeatResult account) {
    String line = words.apply(account);
    boolean nothingKnown = account.standing().hotAssumed() && account.datedBy().isEmpty();
    return nothingKnown
        ? "nothing is recorded of this motor yet, so it is taken to be hot from running: "
            + line
            + "; if it was seen cold, say so: rampwright heat "
            + folder
            + " --cold-at TIME --by NAME"
        : line;
  }

  @Override
  public void recordEarly(Path folder, Answer asked, String reason)
      throws InputProblem, UsageProblem {
    KeepHeat.Arming account = asked.account();
    if (account != null) {
      heat.recordEarly(folder, account, reason);
    }
  }
}
