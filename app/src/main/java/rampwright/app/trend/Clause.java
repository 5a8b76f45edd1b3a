package rampwright.app.trend;

import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * What one figure should do where a pattern is right.
 *
 * @param figure key
 * @param sign 1: it rises, -1: it falls, 0: it stays, {@link #NOT_UP}: it does anything else
 * @param decides whether a figure that does otherwise speaks against the pattern
 */
record Clause(String figure, int sign, boolean decides) {
  /** Anything but a rise. */
  static final int NOT_UP = 2;

  /** A figure stays where it certainly changed by less than this share of the leading change. */
  private static final double STAYS_BELOW = 0.5;

  /** Below this a figure has stayed, whatever the leading change, %. */
  private static final double SMALL_PCT = 3;

  static Clause rises(String figure) {
    return new Clause(figure, 1, true);
  }

  static Clause falls(String figure) {
    return new Clause(figure, -1, true);
  }

  static Clause stays(String figure) {
    return new Clause(figure, 0, true);
  }

  /** It may fall or stay; that it rises speaks against the pattern. */
  static Clause doesNotRise(String figure) {
    return new Clause(figure, NOT_UP, true);
  }

  /** It often rises, and need not. */
  static Clause mayRise(String figure) {
    return new Clause(figure, 1, false);
  }

  /** It often falls, and need not. */
  static Clause mayFall(String figure) {
    return new Clause(figure, -1, false);
  }

  /** What the figures say to it: 1 for, -1 against, 0 nothing either way. */
  int says(Map<String, Shift> shifts, double leadingPct) {
    int says = plainly(shifts, leadingPct);
    return decides ? says : Math.max(0, says);
  }

  private int plainly(Map<String, Shift> shifts, double leadingPct) {
    Shift shift = shifts.get(figure);
    if (shift == null) {
      return 0;
    }
    if (sign == NOT_UP) {
      return shift.isClear(1) ? -1 : 0;
    }
    double small = Math.max(SMALL_PCT, STAYS_BELOW * leadingPct);
    if (sign == 0) {
      boolean clear = shift.isClear(1) || shift.isClear(-1);
      return clear && Math.abs(shift.pct()) > small ? -1 : shift.isWithin(small) ? 1 : 0;
    }
    if (shift.isClear(sign)) {
      return 1;
    }
    return shift.isClear(-sign) || shift.isWithin(SMALL_PCT) ? -1 : 0;
  }

  /** The figure's change in words; nothing where it is not known. */
  Optional<String> words(Map<String, Shift> shifts) {
    Shift shift = shifts.get(figure);
    return Optional.ofNullable(shift)
        .map(s -> String.format(Locale.ROOT, "%s %+.1f %% (+- %.1f)", figure, s.pct(), s.sePct()));
  }
}
