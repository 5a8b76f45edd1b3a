package rampwright.acquisition.toml;

import java.math.BigDecimal;
import java.math.MathContext;

/** Numbers as a person writes them in a file. */
public final class PlainNumber {
  private PlainNumber() {}

  /**
   * The shortest text that reads back as the same number, without exponent and without a needless
   * {@code .0}.
   */
  public static String of(double value) {
    if (!Double.isFinite(value)) {
      return String.valueOf(value);
    }
    if (value == 0) {
      return "0";
    }
    return new BigDecimal(Double.toString(value)).stripTrailingZeros().toPlainString();
  }

  /** The number rounded to so many digits, for messages. */
  public static String rounded(double value, int digits) {
    return value == 0 || !Double.isFinite(value)
        ? of(value)
        : new BigDecimal(value, new MathContext(digits)).stripTrailingZeros().toPlainString();
  }
}
