package rampwright.analysis.heat;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * One rule's word on the next start.
 *
 * @param kind which
 * @param usedPct how much of its allowance is in use, cautiously, %
 * @param statedPct the same with everything as stated; null where there is but one reading
 * @param waitS time until this rule alone allows the next start, s; 0 now; null when it never does,
 *     or cannot tell
 * @param text the rule with its numbers
 * @param rules whether a missing wait stands in the way of a start
 */
public record HeatPart(
    Kind kind,
    double usedPct,
    @Nullable Double statedPct,
    @Nullable Double waitS,
    String text,
    boolean rules) {

  /** The rules in the order they are shown. */
  public enum Kind {
    ROTOR(
        "rotor",
        "locked-rotor times x current squared; cooling by the thermal equation, IEC 60255-149"),
    STATOR("stator", "thermal equation, IEC 60255-149, k = 1.05 (from memory)"),
    STARTER("starter", "rating index, IEC 60947-4-2 (from memory)"),
    RELAY(
        "overload relay", "trip class, IEC 60947-4-1, through the thermal equation, IEC 60255-149"),
    PER_HOUR("starts per hour", "nameplate, else NEMA MG 10, table 2-3"),
    IN_SUCCESSION("starts in succession", "IEC 60034-12, design N (from memory)"),
    REST("rest", "NEMA MG 10, table 2-3");

    private final String key;
    private final String source;

    Kind(String key, String source) {
      this.key = key;
      this.source = source;
    }

    /** Word used in files and on screens. */
    public String key() {
      return key;
    }

    /** The rule and where it comes from. */
    public String source() {
      return source;
    }
  }

  /** A number with three digits and no more than it needs. */
  static String plain(double value) {
    BigDecimal rounded =
        new BigDecimal(value)
            .round(new MathContext(3, RoundingMode.HALF_EVEN))
            .stripTrailingZeros();
    return rounded.toPlainString();
  }

  static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
