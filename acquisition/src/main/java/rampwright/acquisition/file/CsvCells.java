package rampwright.acquisition.file;

import ch.randelshofer.fastdoubleparser.JavaDoubleParser;
import java.math.BigDecimal;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** What a cell that is not a plain number may still mean. */
final class CsvCells {
  private static final Set<String> NO_READING =
      Set.of(
          "-",
          "--",
          "---",
          "----",
          "nan",
          "n/a",
          "na",
          "#n/a",
          "null",
          "none",
          "nil",
          "ol",
          "o.l.",
          "overload",
          "over",
          "overrange",
          "ovrflw",
          "overflow",
          "err",
          "error",
          "#num!",
          "#div/0!",
          "#value!",
          "?",
          "??",
          "???",
          "*",
          "**",
          "***",
          "****",
          "-nan",
          "1.#qnan",
          "-1.#ind",
          "k.a.",
          "n.d.",
          "bad",
          "invalid",
          "no data",
          "missing");
  private static final Set<String> INFINITE =
      Set.of("inf", "+inf", "-inf", "infinity", "+infinity", "-infinity", "\u221e", "-\u221e");
  private static final Set<String> ON =
      Set.of(
          "on", "true", "run", "running", "ein", "an", "wahr", "marche", "vrai", "si", "yes", "ja",
          "oui", "aan", "tak", "start", "started", "closed", "high");
  private static final Set<String> OFF =
      Set.of(
          "off", "false", "stop", "stopped", "aus", "falsch", "arret", "faux", "no", "nein", "non",
          "uit", "nie", "open", "low");
  private static final Pattern GROUPED_POINT =
      Pattern.compile(
          "[+-]?[1-9]\\d{0,2}(?:([,'\u2019 \u00a0\u202f])\\d{3})(?:\\1\\d{3})*(?:\\.\\d*)?");
  private static final Pattern GROUPED_COMMA =
      Pattern.compile(
          "[+-]?[1-9]\\d{0,2}(?:([.'\u2019 \u00a0\u202f])\\d{3})(?:\\1\\d{3})*(?:,\\d*)?");
  private static final int LONGEST_NUMBER = 400;
  private static final int LONGEST_UNIT = 8;

  private CsvCells() {}

  /** Whether the cell says in words or strokes that there is no reading. */
  static boolean saysNoReading(String cell) {
    return cell.length() <= 9 && NO_READING.contains(cell.toLowerCase(Locale.ROOT));
  }

  static boolean isInfinite(String cell) {
    return cell.length() <= 9 && INFINITE.contains(cell.toLowerCase(Locale.ROOT));
  }

  /** Whether the cell is a number with that decimal mark and no thousands separators. */
  static boolean isNumber(String cell, char decimal) {
    int length = cell.length();
    int at = length > 0 && (cell.charAt(0) == '-' || cell.charAt(0) == '+') ? 1 : 0;
    if (length == 0 || length > LONGEST_NUMBER) {
      return false;
    }
    int first = at;
    at = digitsEnd(cell, at);
    int digits = at - first;
    if (at < length && cell.charAt(at) == decimal) {
      int fraction = at + 1;
      at = digitsEnd(cell, fraction);
      digits += at - fraction;
    }
    if (digits > 0 && at < length && isExponentMark(cell.charAt(at))) {
      at++;
      at += at < length && (cell.charAt(at) == '-' || cell.charAt(at) == '+') ? 1 : 0;
      int exponent = at;
      at = digitsEnd(cell, at);
      digits = at > exponent && at - exponent <= 4 ? digits : 0;
    }
    return digits > 0 && at == length;
  }

  /** {@code e}, or the {@code d} of programs that write double precision so (ISO/IEC 1539). */
  static boolean isExponentMark(int c) {
    return (c | 0x20) == 'e' || (c | 0x20) == 'd';
  }

  private static int digitsEnd(String cell, int from) {
    int at = from;
    while (at < cell.length() && cell.charAt(at) >= '0' && cell.charAt(at) <= '9') {
      at++;
    }
    return at;
  }

  /** Value of a cell for which {@link #isNumber} holds. */
  static double number(String cell, char decimal) {
    String point = decimal == '.' ? cell : cell.replace(',', '.');
    return JavaDoubleParser.parseDouble(point.replace('D', 'E').replace('d', 'e'));
  }

  /** Every digit of a cell for which {@link #isNumber} holds. */
  static BigDecimal exact(String cell) {
    return new BigDecimal(cell.replace(',', '.').replace('D', 'E').replace('d', 'e'));
  }

  /** Value of a number with thousands separators; NaN when it is none. */
  static double grouped(String cell, char decimal) {
    if (cell.length() > LONGEST_NUMBER) {
      return Double.NaN;
    }
    Matcher matcher = (decimal == '.' ? GROUPED_POINT : GROUPED_COMMA).matcher(cell);
    return matcher.matches() ? number(cell.replace(matcher.group(1), ""), decimal) : Double.NaN;
  }

  /** A number and the unit written behind it in the same cell. */
  record WithUnit(String number, UnitTable.Unit unit) {}

  /** The parts of a cell such as {@code 12.3 A}; null when it is none. */
  static @Nullable WithUnit withUnit(String cell, char decimal) {
    int at = 0;
    while (at < cell.length() && (isDigitOrSign(cell.charAt(at)) || cell.charAt(at) == decimal)) {
      at++;
    }
    if (at == 0 || at == cell.length() || cell.length() - at > LONGEST_UNIT) {
      return null;
    }
    String number = cell.substring(0, at);
    UnitTable.Unit unit = UnitTable.find(cell.substring(at));
    return unit != null && isNumber(number, decimal) ? new WithUnit(number, unit) : null;
  }

  private static boolean isDigitOrSign(char c) {
    return (c >= '0' && c <= '9') || c == '-' || c == '+';
  }

  /** 1 or 0 for a run command in words; NaN for other words. */
  static double runWord(String cell) {
    String word = cell.toLowerCase(Locale.ROOT).replace("\u00ea", "e").replace("\u00ed", "i");
    if (ON.contains(word)) {
      return 1;
    }
    return OFF.contains(word) ? 0 : Double.NaN;
  }
}
