package rampwright.acquisition.file;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import rampwright.analysis.quantity.Quantity;

/**
 * A unit as analog channels name it.
 *
 * @param kind what it measures; {@link Quantity#PHASE_VOLTAGE} stands for any voltage
 * @param factor value in this unit x factor = value in the quantity's own unit. Decimal prefixes
 *     and 60 s a minute are exact; 1 psi = 0.0689475729 bar (NIST SP 811, appendix B.8)
 */
record ComtradeUnit(Quantity kind, double factor) {

  /** The unit of that name, if it is one a trace can use. Only m and M differ by their case. */
  static Optional<ComtradeUnit> of(String text) {
    String word =
        text.strip()
            .replaceAll("(?i)(rms|eff)$", "")
            .replaceAll("[\\[\\]()\\s.·*]", "")
            .replace('\u00b5', 'u');
    if (word.isEmpty()) {
      return Optional.empty();
    }
    for (Base base : BASES) {
      String tail = base.symbol();
      int at = word.length() - tail.length();
      if (at == 0 && word.equalsIgnoreCase(tail)) {
        return Optional.of(new ComtradeUnit(base.kind(), base.factor()));
      }
      if (at == 1 && base.takesPrefix() && word.substring(1).equalsIgnoreCase(tail)) {
        double prefix = prefix(word.charAt(0));
        if (prefix > 0) {
          return Optional.of(new ComtradeUnit(base.kind(), base.factor() * prefix));
        }
      }
    }
    return Optional.empty();
  }

  private static double prefix(char letter) {
    return switch (letter) {
      case 'u' -> 1e-6;
      case 'm' -> 1e-3;
      case 'k', 'K' -> 1e3;
      case 'M' -> 1e6;
      default -> 0;
    };
  }

  /** True when a channel of that quantity can be had from this unit. */
  boolean fits(Quantity quantity) {
    return kind == quantity
        || (kind == Quantity.PHASE_VOLTAGE && quantity == Quantity.LINE_VOLTAGE);
  }

  /** Factor as people write it. */
  static String plain(double factor) {
    return factor == Math.rint(factor) && Math.abs(factor) < 1e9
        ? Long.toString((long) factor)
        : String.format(Locale.ROOT, "%.9g", factor);
  }

  private record Base(String symbol, Quantity kind, double factor, boolean takesPrefix) {}

  private static final List<Base> BASES =
      List.of(
          new Base("A", Quantity.CURRENT, 1, true),
          new Base("amp", Quantity.CURRENT, 1, false),
          new Base("amps", Quantity.CURRENT, 1, false),
          new Base("V", Quantity.PHASE_VOLTAGE, 1, true),
          new Base("volt", Quantity.PHASE_VOLTAGE, 1, false),
          new Base("volts", Quantity.PHASE_VOLTAGE, 1, false),
          new Base("rpm", Quantity.SPEED, 1, false),
          new Base("1/min", Quantity.SPEED, 1, false),
          new Base("r/min", Quantity.SPEED, 1, false),
          new Base("rev/min", Quantity.SPEED, 1, false),
          new Base("U/min", Quantity.SPEED, 1, false),
          new Base("min-1", Quantity.SPEED, 1, false),
          new Base("1/s", Quantity.SPEED, 60, false),
          new Base("rps", Quantity.SPEED, 60, false),
          new Base("Nm", Quantity.TORQUE, 1, true),
          new Base("W", Quantity.POWER, 1, true),
          new Base("bar", Quantity.PRESSURE, 1, true),
          new Base("Pa", Quantity.PRESSURE, 1e-5, true),
          new Base("psi", Quantity.PRESSURE, 0.0689475729, false));
}
