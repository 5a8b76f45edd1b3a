package rampwright.analysis.heat;

import java.util.List;

/**
 * The heat account: replays what is known of the past and says when the next start is allowed.
 *
 * <p>What is not known is assumed on the hot side: before the first record the motor is taken to
 * have run long at rated load; after a trace that ends with current flowing it is taken to have run
 * on at that current until the next record, or until now; what it did in a gap longer than the
 * history is good for counts as rated running; a trace that ends within a start is taken to have
 * used the whole hot allowance. Where the account was asked before the first record, it begins hot
 * at the first time it was asked. Starts nobody recorded or told of are not in the account.
 *
 * <p>Checked by: HeatAccountReferenceTest, HeatAccountTest.
 */
public final class HeatAccount {
  private HeatAccount() {}

  /**
   * How the circuit stands.
   *
   * @param plan what it is kept against
   * @param history what is known; stretches that begin after {@code nowS} are left out
   * @param nowS the moment asked about, on the history's axis
   */
  public static HeatStanding at(HeatPlan plan, HeatHistory history, double nowS) {
    HeatReplay replay = new HeatReplay(plan, history.forgetAfterS());
    double firstS = history.stretches().isEmpty() ? nowS : history.stretches().get(0).beginS();
    if (history.openedS() <= Math.min(firstS, nowS)) {
      replay.opened(history.openedS());
    }
    List<Double> cold = history.coldAtS();
    int nextCold = 0;
    for (HeatHistory.Dated dated : history.stretches()) {
      if (dated.beginS() > nowS) {
        break;
      }
      while (nextCold < cold.size() && cold.get(nextCold) <= dated.beginS()) {
        replay.cold(cold.get(nextCold++));
      }
      replay.trace(dated);
    }
    while (nextCold < cold.size() && cold.get(nextCold) <= nowS) {
      replay.cold(cold.get(nextCold++));
    }
    return replay.standing(nowS);
  }
}
