package rampwright.analysis.heat;

import org.jspecify.annotations.Nullable;

/**
 * What one start took, in the cautious reading.
 *
 * @param name trace it was in
 * @param atS when it began
 * @param outcome how it ended
 * @param measured whether its current was measured; else a person told of it
 * @param before levels when it began
 * @param after levels when it ended
 * @param rotorAdded share of the locked-rotor budget it took
 * @param statorAdded share of the stator's limit it took
 * @param duty share of the starter's duty of one start; 0 without a rating index
 * @param relayHighest level the strictest relay of the class came to; null without a class
 * @param relayLowest level the laxest relay of the class came to; null without a class
 * @param relayAdded level the start adds to the strictest relay from cold; 0 without a class
 * @param tooSoonByS how long before it was allowed it began; 0 when it was in time; null when no
 *     time would have allowed it
 * @param ruledBy the rule it was too soon for; null when it was in time
 */
public record StartHeat(
    String name,
    double atS,
    String outcome,
    boolean measured,
    Levels before,
    Levels after,
    double rotorAdded,
    double statorAdded,
    double duty,
    @Nullable Double relayHighest,
    @Nullable Double relayLowest,
    double relayAdded,
    @Nullable Double tooSoonByS,
    HeatPart.@Nullable Kind ruledBy) {

  /** Whether it began before the account allowed it. */
  public boolean isTooSoon() {
    return ruledBy != null;
  }
}
