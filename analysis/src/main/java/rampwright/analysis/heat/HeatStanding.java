package rampwright.analysis.heat;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How a motor circuit stands at a moment.
 *
 * @param nowS the moment
 * @param parts every rule's word
 * @param waitS time until all of them allow the next start, s; null when that is not to be had
 * @param ruledBy the strictest; null when nothing has to be waited for
 * @param why why there is no time; null when there is
 * @param startsPerHour what the strictest rule allows for ever, heat included; 0 when one start is
 *     too much
 * @param restS rest between two starts the strictest rule asks for, for ever, s; infinite when one
 *     start is too much
 * @param starts what the recorded starts took
 * @param running whether the motor is taken to be running
 * @param hotAssumed whether the past before the first record was unknown and taken as hot
 * @param curve levels against time, in time order
 * @param coolingS time constant of cooling at standstill, s, in the cautious reading
 * @param statedCoolingS the same as stated
 * @param expectedRotor share of the locked-rotor budget the next start is reckoned to take
 */
public record HeatStanding(
    double nowS,
    List<HeatPart> parts,
    @Nullable Double waitS,
    HeatPart.@Nullable Kind ruledBy,
    @Nullable String why,
    double startsPerHour,
    double restS,
    List<StartHeat> starts,
    boolean running,
    boolean hotAssumed,
    List<Point> curve,
    double coolingS,
    double statedCoolingS,
    double expectedRotor) {
  public HeatStanding {
    parts = List.copyOf(parts);
    starts = List.copyOf(starts);
    curve = List.copyOf(curve);
  }

  /** Levels at a moment: with everything as stated, and cautiously. */
  public record Point(double atS, Levels stated, Levels cautious) {}

  /** The word of one rule; null when it says nothing. */
  public @Nullable HeatPart part(HeatPart.Kind kind) {
    return parts.stream().filter(part -> part.kind() == kind).findFirst().orElse(null);
  }
}
