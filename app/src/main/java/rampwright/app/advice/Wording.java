package rampwright.app.advice;

import java.util.Locale;
import rampwright.app.envelope.FigureKey;

/** Numbers and figures as people read them. */
final class Wording {
  private Wording() {}

  /** Three figures, no trailing zeros, no exponent. */
  static String number(double value) {
    double size = Math.abs(value);
    String text =
        String.format(
            Locale.ROOT,
            size >= 99.95 ? "%.0f" : size >= 9.995 ? "%.1f" : size >= 0.0995 ? "%.2f" : "%.3f",
            value);
    return text.contains(".") ? text.replaceAll("0+$", "").replaceAll("\\.$", "") : text;
  }

  /** A value of a figure with its unit. */
  static String value(String key, double value) {
    String unit = unit(key);
    return number(value) + (unit.isEmpty() ? "" : " " + unit);
  }

  /** Unit of a figure; a ratio of currents is so many times rated. */
  static String unit(String key) {
    String unit = FigureKey.ofKey(key).map(FigureKey::unit).orElse("");
    return unit.isEmpty() && key.endsWith("current_ratio") ? "x" : unit;
  }

  /** Name of a figure inside a sentence. */
  static String label(String key) {
    return switch (key) {
      case "peak_current_ratio" -> "peak current";
      case "rms_current_ratio" -> "RMS current of the start";
      case "i2t_ratio_s", "i2t_A2s" -> "I2t";
      case "stop_peak_current_ratio" -> "peak current of the stop";
      case "stop_i2t_ratio_s" -> "I2t of the stop";
      default -> FigureKey.labelOf(key);
    };
  }
}
