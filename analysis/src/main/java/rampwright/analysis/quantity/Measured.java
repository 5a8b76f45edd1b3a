package rampwright.analysis.quantity;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * One number with its evidence, or the reason why there is none.
 *
 * @param value the number in {@code unit}; null when it could not be had, then {@code why} says why
 * @param unit unit symbol, "%" for percent, "" for a ratio
 * @param uncertainty standard uncertainty (JCGM 100) in {@code unit}, above 0; null where it cannot
 *     be told. No measurement is certain: 0, or what is no number, is taken as "cannot be told"
 * @param fromS start of the window the number was taken over, on the trace's time base
 * @param toS end of that window
 * @param rule how the number was found, in words
 * @param why reason for a missing value; null when there is a value
 * @param phase the phase or line the value belongs to ("L1", "L1-L2"), where it belongs to one
 * @param phases the same number for each phase or line that was measured, in order
 * @param parts further named numbers that belong to this one ("largest", "median", "run")
 */
public record Measured(
    @Nullable Double value,
    String unit,
    @Nullable Double uncertainty,
    @Nullable Double fromS,
    @Nullable Double toS,
    @Nullable String rule,
    @Nullable String why,
    @Nullable String phase,
    Map<String, Double> phases,
    Map<String, Double> parts) {

  public Measured {
    if ((value == null) == (why == null)) {
      throw new IllegalArgumentException(
          "either a value or a reason why there is none, not " + value + " and " + why);
    }
    if (value != null && !Double.isFinite(value)) {
      throw new IllegalArgumentException("value is not a finite number: " + value);
    }
    if (uncertainty != null && !(uncertainty > 0 && Double.isFinite(uncertainty))) {
      uncertainty = null;
    }
    phases = Collections.unmodifiableMap(new LinkedHashMap<>(phases));
    parts = Collections.unmodifiableMap(new LinkedHashMap<>(parts));
  }

  /** A number taken over a window by a rule. */
  public static Measured of(
      double value,
      String unit,
      @Nullable Double uncertainty,
      double fromS,
      double toS,
      String rule) {
    return new Measured(value, unit, uncertainty, fromS, toS, rule, null, null, Map.of(), Map.of());
  }

  /** A number that could not be had. */
  public static Measured missing(String unit, String why) {
    return new Measured(null, unit, null, null, null, null, why, null, Map.of(), Map.of());
  }

  public boolean isPresent() {
    return value != null;
  }

  /** The same number with another standard uncertainty. */
  public Measured withUncertainty(@Nullable Double newUncertainty) {
    return new Measured(value, unit, newUncertainty, fromS, toS, rule, why, phase, phases, parts);
  }

  /** The same number by another rule. */
  public Measured withRule(String newRule) {
    return new Measured(value, unit, uncertainty, fromS, toS, newRule, why, phase, phases, parts);
  }

  /** The same number, said to belong to one phase and listing all of them. */
  public Measured withPhases(@Nullable String newPhase, Map<String, Double> newPhases) {
    return new Measured(
        value, unit, uncertainty, fromS, toS, rule, why, newPhase, newPhases, parts);
  }

  /** The same number with further named numbers beside it. */
  public Measured withParts(Map<String, Double> newParts) {
    return new Measured(value, unit, uncertainty, fromS, toS, rule, why, phase, phases, newParts);
  }
}
