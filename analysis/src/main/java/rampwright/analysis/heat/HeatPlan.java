package rampwright.analysis.heat;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What an account is kept against.
 *
 * @param motor what the motor may take
 * @param starter what the starter may take; null without a starter on the sheet
 * @param relay the overload relay's class, set to rated motor current; null when not known
 * @param rules how often it may be started
 * @param expected pieces of the start to come, from a model; empty when nothing is predicted. It
 *     and the last three recorded starts: the largest is reckoned with
 */
public record HeatPlan(
    MotorHeat motor,
    @Nullable StarterDuty starter,
    @Nullable TripClass relay,
    StartRules rules,
    List<HeatPiece> expected) {
  public HeatPlan {
    expected = List.copyOf(expected);
  }
}
