package rampwright.app.chart;

import java.math.BigDecimal;
import java.math.MathContext;

/**
 * What an axis shows and in which multiple of its unit.
 *
 * @param min least value, in the plain unit
 * @param max largest value, in the plain unit, above {@code min}
 * @param factor plain units in one unit shown: 1000 for kA
 * @param unit unit shown
 */
record AxisRange(double min, double max, double factor, String unit) {
  /** Values beyond are drawn as this, so that spans stay finite. */
  private static final double LARGEST = 1e300;

  private static final double SMALLEST = 1e-9;

  /** How an axis meets its data. */
  enum Fit {
    /** From zero, or across it. */
    FROM_ZERO,
    /** Around the data. */
    AROUND,
    /** Exactly the data's ends. */
    EXACT
  }

  /**
   * An axis that holds the values between {@code low} and {@code high}; NaN when there are none.
   */
  static AxisRange of(double low, double high, String unit, Fit fit) {
    double from = Math.max(-LARGEST, Math.min(LARGEST, low));
    double to = Math.max(-LARGEST, Math.min(LARGEST, high));
    if (!(from <= to)) {
      from = 0;
      to = 1;
    }
    if (fit == Fit.FROM_ZERO) {
      from = Math.min(0, from);
      to = Math.max(0, to);
    }
    double largest = Math.max(Math.abs(from), Math.abs(to));
    if (largest < SMALLEST) {
      to = from + 1;
      largest = 1;
    } else if (to - from < largest * 1e-7) {
      double middle = (from + to) / 2;
      from = middle - largest * 0.05;
      to = middle + largest * 0.05;
    }
    double span = to - from;
    switch (fit) {
      // A tick that falls on the very edge is not labelled, so the edge lies a little beyond.
      case FROM_ZERO -> {
        to += to == 0 ? 0.02 * span : 0.07 * span;
        from -= from == 0 ? 0.015 * span : 0.07 * span;
      }
      case AROUND -> {
        to += 0.08 * span;
        from -= 0.08 * span;
      }
      case EXACT -> {}
    }
    return scaled(from, to, largest, unit);
  }

  private static AxisRange scaled(double from, double to, double largest, String unit) {
    boolean prefixed =
        switch (unit) {
          case "A", "V", "W", "N m", "s" -> true;
          default -> false;
        };
    if (prefixed && !unit.equals("s") && largest >= 2e4 && largest < 2e7) {
      return new AxisRange(from, to, 1e3, "k" + unit);
    }
    if (prefixed && !unit.equals("s") && largest >= 2e7 && largest < 2e10) {
      return new AxisRange(from, to, 1e6, "M" + unit);
    }
    if (prefixed && largest < 0.05 && largest >= 5e-5) {
      return new AxisRange(from, to, 1e-3, "m" + unit);
    }
    if (largest >= 1e6 || largest < 0.05) {
      int power = 3 * (int) Math.floor(Math.log10(largest) / 3);
      return new AxisRange(from, to, Math.pow(10, power), "10" + superscript(power) + " " + unit);
    }
    return new AxisRange(from, to, 1, unit);
  }

  private static String superscript(int power) {
    StringBuilder text = new StringBuilder();
    for (char c : Integer.toString(power).toCharArray()) {
      text.append(c == '-' ? '⁻' : "⁰¹²³⁴⁵⁶⁷⁸⁹".charAt(c - '0'));
    }
    return text.toString();
  }

  /** A tick's label, from its value in the unit shown. */
  static String label(double shown) {
    if (Math.abs(shown) < 1e-9) {
      return "0";
    }
    String plain =
        BigDecimal.valueOf(shown).round(new MathContext(9)).stripTrailingZeros().toPlainString();
    return plain.startsWith("-") ? "−" + plain.substring(1) : plain;
  }

  double shown(double value) {
    return value / factor;
  }
}
