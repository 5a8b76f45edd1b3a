package rampwright.acquisition.file;

import java.util.List;
import java.util.Locale;

/** The last digit that a file's time stamps are written with. */
final class ColumnResolution {
  /** More decimals than this are not a clock's digits but the noise of binary arithmetic. */
  private static final int LONGEST_FRACTION = 9;

  private ColumnResolution() {}

  /** Of numbers; {@code factor} turns them into seconds. */
  static CsvTimeAxis.Stamps ofNumbers(List<String> cells, char decimal, double factor) {
    int decimals = 0;
    int digits = 0;
    boolean exponent = false;
    for (String cell : cells) {
      String number = cell.toLowerCase(Locale.ROOT);
      int e = number.indexOf('e');
      String mantissa = e < 0 ? number : number.substring(0, e);
      int mark = mantissa.indexOf(decimal);
      exponent |= e >= 0;
      decimals = Math.max(decimals, mark < 0 ? 0 : mantissa.length() - mark - 1);
      digits = Math.max(digits, (int) mantissa.chars().filter(Character::isDigit).count());
    }
    if (decimals > LONGEST_FRACTION) {
      decimals = Math.min(decimals, withoutNoise(cells, decimal));
    }
    return exponent
        ? new CsvTimeAxis.Stamps(0, Math.pow(10, 1 - digits), CsvTimeAxis.Clock.NONE, factor)
        : new CsvTimeAxis.Stamps(
            Math.pow(10, -decimals) * factor, 0, CsvTimeAxis.Clock.NONE, factor);
  }

  /** Decimals that are not the noise of binary arithmetic, as in 0.050999999999995. */
  private static int withoutNoise(List<String> cells, char decimal) {
    for (int decimals = 0; decimals < 9; decimals++) {
      double scale = Math.pow(10, decimals);
      boolean enough = true;
      for (String cell : cells) {
        if (CsvCells.isNumber(cell, decimal)) {
          double value = CsvCells.number(cell, decimal);
          double noise = 1e-10 * Math.max(1e-3, Math.abs(value));
          enough &= Math.abs(Math.rint(value * scale) / scale - value) <= noise;
        }
      }
      if (enough) {
        return decimals;
      }
    }
    return Integer.MAX_VALUE;
  }

  /** Of wall clocks, s. */
  static double ofClocks(List<String> cells) {
    int decimals = 0;
    boolean seconds = false;
    for (String cell : cells) {
      int colon = cell.lastIndexOf(':', cell.indexOf('+') > 0 ? cell.indexOf('+') : cell.length());
      seconds |= colon > cell.indexOf(':');
      int at = colon + 1;
      while (at < cell.length() && Character.isDigit(cell.charAt(at))) {
        at++;
      }
      int from = at + 1;
      int end = from;
      while (at < cell.length()
          && (cell.charAt(at) == '.' || cell.charAt(at) == ',')
          && end < cell.length()
          && Character.isDigit(cell.charAt(end))) {
        end++;
      }
      decimals = Math.max(decimals, Math.min(9, end - from));
    }
    return seconds || decimals > 0 ? Math.pow(10, -Math.max(0, decimals)) : 60;
  }
}
