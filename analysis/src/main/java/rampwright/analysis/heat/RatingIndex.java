package rampwright.analysis.heat;

import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Utilisation category and rating index of a semiconductor starter.
 *
 * <p>AC-53a, the starter carries the running current: {@code AC-53a: X-Tx: F-S}. AC-53b, it is
 * by-passed after the start: {@code AC-53b: X-Tx: off}. A rated current may stand before ("100 A:
 * AC-53b: ..."). Two numbers after the second colon mean 53a, one means 53b; a mix is refused.
 *
 * <p>Source: IEC 60947-4-2 (from memory). Checked by: RatingIndexReferenceTest.
 *
 * @param category AC-53a or AC-53b
 * @param ratedA rated operational current of the text; null when it does not stand there
 * @param overload X: overload current over rated
 * @param overloadS Tx: its time, s
 * @param onLoadPct F: on-load factor, %; NaN for AC-53b
 * @param cyclesPerHour S: for AC-53b 3600 / (Tx + off-time)
 * @param offS least time without load (off or by-passed) before the next start, s; for AC-53a (1 -
 *     F) 3600 / S
 */
public record RatingIndex(
    Category category,
    @Nullable Double ratedA,
    double overload,
    double overloadS,
    double onLoadPct,
    double cyclesPerHour,
    double offS) {

  /** Who carries the running current. */
  public enum Category {
    /** The starter. */
    AC_53A("AC-53a"),
    /** A by-pass. */
    AC_53B("AC-53b");

    private final String key;

    Category(String key) {
      this.key = key;
    }

    /** The standard's word. */
    public String key() {
      return key;
    }
  }

  private static final String NUMBER = "(\\d+(?:\\.\\d+)?)";
  private static final Pattern FORM =
      Pattern.compile(
          "(?:"
              + NUMBER
              + "\\s*A\\s*:?\\s*)?AC-?53([ab])\\s*:?\\s*"
              + NUMBER
              + "\\s*-\\s*"
              + NUMBER
              + "\\s*:\\s*"
              + NUMBER
              + "(?:\\s*-\\s*"
              + NUMBER
              + ")?",
          Pattern.CASE_INSENSITIVE);

  private static final String EXPECTED =
      "expected AC-53a: X-Tx: F-S (for example AC-53a: 3.5-20: 50-6) or AC-53b: X-Tx: off-time in s"
          + " (for example AC-53b: 4-10: 590)";

  /**
   * The index of a text.
   *
   * @throws IllegalArgumentException when it is none, with what was expected
   */
  public static RatingIndex parse(String text) {
    Matcher m = FORM.matcher(text.strip());
    if (!m.matches()) {
      throw refused(text, "is no rating index");
    }
    Double rated = m.group(1) == null ? null : Double.valueOf(number(m.group(1)));
    boolean a = m.group(2).toLowerCase(Locale.ROOT).equals("a");
    double overload = number(m.group(3));
    double overloadS = number(m.group(4));
    double first = number(m.group(5));
    String second = m.group(6);
    if (a != (second != null)) {
      throw refused(
          text,
          a
              ? "says AC-53a and gives one number after the second colon"
              : "says AC-53b and gives two numbers after the second colon");
    }
    if (!(overload >= 1 && overload <= 15 && overloadS > 0 && overloadS <= 3600)) {
      throw refused(text, "has an overload of " + overload + " for " + overloadS + " s");
    }
    if (second == null) {
      return new RatingIndex(
          Category.AC_53B,
          rated,
          overload,
          overloadS,
          Double.NaN,
          3600 / (overloadS + first),
          first);
    }
    double cycles = number(second);
    if (!(first > 0 && first <= 100 && cycles > 0 && cycles <= 1200)) {
      throw refused(text, "has an on-load factor of " + first + " % at " + cycles + " an hour");
    }
    if (overloadS > 3600 / cycles * first / 100) {
      throw refused(text, "has an overload time longer than the load time of its cycle");
    }
    return new RatingIndex(
        Category.AC_53A,
        rated,
        overload,
        overloadS,
        first,
        cycles,
        (1 - first / 100) * 3600 / cycles);
  }

  private static double number(@Nullable String text) {
    return text == null ? Double.NaN : Double.parseDouble(text);
  }

  private static IllegalArgumentException refused(String text, String what) {
    return new IllegalArgumentException("rating index \"" + text + "\" " + what + "; " + EXPECTED);
  }

  /** Length of a cycle of load and off-time, s. */
  public double cycleS() {
    return 3600 / cyclesPerHour;
  }

  /**
   * RMS of the current over one full cycle, of rated current: overload, then rated current (AC-53a)
   * or none (AC-53b).
   */
  public double cycleRms() {
    double square = overload * overload * overloadS;
    if (category == Category.AC_53A) {
      square += cycleS() * onLoadPct / 100 - overloadS;
    }
    return Math.sqrt(square / cycleS());
  }

  /**
   * Share of the duty of one start a current takes, a second.
   *
   * <p>Formula: (r / X)^p / Tx, p = 2 above X, 1 below: conduction loss of a thyristor lies between
   * current and current squared, and each is used where it is the worse. Common practice, no
   * source.
   *
   * @param ratio current over the starter's rated current
   */
  public double dutyPerS(double ratio) {
    double share = ratio / overload;
    return (share > 1 ? share * share : share) / overloadS;
  }
}
