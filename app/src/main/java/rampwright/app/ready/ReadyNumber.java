package rampwright.app.ready;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Numbers in sentences. */
final class ReadyNumber {
  private ReadyNumber() {}

  /** A text whose {@code %s} numbers are rounded to three digits, 100 and above to whole ones. */
  static String text(String format, @Nullable Object... values) {
    Object[] shown = new Object[values.length];
    for (int i = 0; i < values.length; i++) {
      shown[i] = values[i] instanceof Double number ? plain(number) : values[i];
    }
    return String.format(Locale.ROOT, format, shown);
  }

  static String plain(double value) {
    if (!Double.isFinite(value)) {
      return Double.isNaN(value) ? "-" : "endless";
    }
    if (Math.abs(value) >= 100) {
      return String.format(Locale.ROOT, "%.0f", value);
    }
    return new BigDecimal(value)
        .round(new MathContext(3, RoundingMode.HALF_EVEN))
        .stripTrailingZeros()
        .toPlainString();
  }
}
