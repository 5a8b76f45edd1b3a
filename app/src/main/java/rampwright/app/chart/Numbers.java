package rampwright.app.chart;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import org.jspecify.annotations.Nullable;

/** Numbers as people read them: rounded where their uncertainty begins (JCGM 100, 7.2.6). */
final class Numbers {
  private static final int DIGITS_WITHOUT_UNCERTAINTY = 4;

  private Numbers() {}

  /**
   * A unit with a prefix that suits a value.
   *
   * @param factor plain units in one of this
   * @param unit unit with its prefix
   */
  record Scaled(double factor, String unit) {}

  /** Kilo and mega for energies and powers, whose plain units are small. */
  static Scaled scaled(double value, String unit) {
    boolean small =
        switch (unit) {
          case "J", "W", "VA", "var" -> true;
          default -> false;
        };
    double size = Math.abs(value);
    if (!small || size < 1e4 || size >= 1e10) {
      return new Scaled(1, unit);
    }
    return size < 1e7 ? new Scaled(1e3, "k" + unit) : new Scaled(1e6, "M" + unit);
  }

  /** A value, to two digits of its uncertainty, or to four digits where that is not known. */
  static String value(double value, @Nullable Double uncertainty) {
    if (uncertainty == null || !(uncertainty > 0) || !Double.isFinite(uncertainty)) {
      return plain(BigDecimal.valueOf(value).round(new MathContext(DIGITS_WITHOUT_UNCERTAINTY)));
    }
    int place = place(uncertainty);
    return plain(BigDecimal.valueOf(value).setScale(place, RoundingMode.HALF_EVEN));
  }

  /** " ± u" to two digits, or empty where it is not known. */
  static String uncertainty(@Nullable Double uncertainty) {
    if (uncertainty == null || !(uncertainty > 0) || !Double.isFinite(uncertainty)) {
      return "";
    }
    return "± "
        + plain(BigDecimal.valueOf(uncertainty).setScale(place(uncertainty), RoundingMode.HALF_UP));
  }

  /** Decimal places that leave two digits of the uncertainty. */
  private static int place(double uncertainty) {
    return 1 - (int) Math.floor(Math.log10(uncertainty));
  }

  private static String plain(BigDecimal number) {
    double size = Math.abs(number.doubleValue());
    String text;
    if (number.signum() != 0 && (size >= 1e7 || size < 1e-4)) {
      text = exponent(number);
    } else {
      text = number.scale() < 0 ? number.setScale(0).toPlainString() : number.toPlainString();
    }
    return text.startsWith("-") ? "−" + text.substring(1) : text;
  }

  private static String exponent(BigDecimal number) {
    BigDecimal rounded = number.round(new MathContext(DIGITS_WITHOUT_UNCERTAINTY));
    int power = rounded.precision() - rounded.scale() - 1;
    BigDecimal mantissa = rounded.scaleByPowerOfTen(-power).stripTrailingZeros();
    return mantissa.toPlainString() + "e" + power;
  }
}
