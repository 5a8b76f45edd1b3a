package rampwright.acquisition.file;

import java.io.IOException;
import java.util.List;
import java.util.Locale;
import rampwright.analysis.trace.Samples;

/**
 * Numbers that recorders write where they have no reading.
 *
 * <p>A value is taken for such a mark only when it stands at the edge of the channel's range and is
 * one of the usual ones, far from every other value and written more than once; or is one of the
 * usual huge ones, or a huge one written more than once. Huge is what no motor has, {@value #HUGE}
 * and more.
 *
 * <p>Source: SCPI-1999 volume 1, 7.2.1.4 and 7.2.1.5 (9.91E37 for not a number, 9.9E37 for
 * infinity; from memory); IEEE C37.111 (99999); ends of 16 and 32 bit numbers; else common
 * practice, no source.
 */
final class CsvMarks {
  /** Beyond every current, voltage, speed and power. */
  private static final double HUGE = 1e30;

  private static final double[] USUAL_HUGE = {
    1e30,
    1e31,
    1e32,
    1e33,
    1e34,
    1e35,
    1e36,
    1e37,
    1e38,
    9.9e37,
    9.91e37,
    3.4e38,
    Float.MAX_VALUE,
    1e99,
    9.9e99,
    Double.MAX_VALUE
  };

  /** Huge marks are written with as few as six digits. */
  private static final double HUGE_TOLERANCE = 1e-5;

  private static final double[] USUAL = {
    999,
    999.25,
    9999,
    99999,
    999999,
    9999999,
    65535,
    32767,
    32768,
    2147483647,
    2147483648d,
    4294967295d
  };

  /** A mark lies so many times as far from zero as the farthest reading. */
  private static final double CLEAR = 3;

  private static final int REPEATED = 2;
  private static final int MOST_MARKS = 4;
  private static final int PIECE = 8192;

  private final String column;
  private final CsvPlan.Slot slot;
  private final List<String> warnings;

  CsvMarks(String column, CsvPlan.Slot slot, List<String> warnings) {
    this.column = column;
    this.slot = slot;
    this.warnings = warnings;
  }

  /**
   * The samples with marks turned into missing values.
   *
   * @param lowest of all of them
   * @param highest of all of them
   */
  Samples without(Samples samples, double lowest, double highest, boolean inFile)
      throws IOException {
    Samples kept = samples;
    double low = lowest;
    double high = highest;
    for (int i = 0; i < MOST_MARKS; i++) {
      double mark = markOf(low) ? low : high;
      if (!markOf(mark)) {
        break;
      }
      Rest rest = Rest.of(kept, mark, slot);
      if (!isClear(mark, rest)) {
        break;
      }
      kept = missing(kept, mark, inFile);
      warnings.add(
          String.format(
              Locale.ROOT,
              "%d values of %s in column %s are marks for no reading, far from all others; marked"
                  + " missing",
              rest.count,
              CsvTimeAxis.number(raw(mark)),
              column));
      low = rest.low;
      high = rest.high;
    }
    return kept;
  }

  private boolean isClear(double mark, Rest rest) {
    double size = Math.abs(raw(mark));
    if (size >= HUGE) {
      return isUsualHuge(size) || rest.count >= REPEATED;
    }
    boolean far = size > CLEAR * rest.farthest;
    if (far && rest.count < REPEATED) {
      warnings.add(
          "column "
              + column
              + " holds "
              + CsvTimeAxis.number(raw(mark))
              + " once, far from all other values; kept, but it may be a mark for no reading");
    }
    return far && rest.count >= REPEATED;
  }

  private double raw(double value) {
    return (value - slot.offset()) / slot.factor();
  }

  private static boolean isUsualHuge(double size) {
    for (double usual : USUAL_HUGE) {
      if (Math.abs(size / usual - 1) <= HUGE_TOLERANCE) {
        return true;
      }
    }
    return false;
  }

  private boolean markOf(double value) {
    double size = Math.abs(raw(value));
    if (size >= HUGE) {
      return true;
    }
    for (double usual : USUAL) {
      // The factor may have rounded it.
      if (Math.abs(size - usual) <= 4 * Math.ulp(usual)) {
        return true;
      }
    }
    return false;
  }

  /** What is there besides a mark. */
  private static final class Rest {
    private int count;
    private double low = Double.NaN;
    private double high = Double.NaN;
    private double farthest;

    static Rest of(Samples samples, double mark, CsvPlan.Slot slot) {
      Rest rest = new Rest();
      double[] piece = new double[PIECE];
      for (int from = 0; from < samples.size(); from += PIECE) {
        int length = Math.min(PIECE, samples.size() - from);
        samples.copy(from, piece, 0, length);
        for (int i = 0; i < length; i++) {
          double value = piece[i];
          if (value == mark) {
            rest.count++;
          } else if (!Double.isNaN(value)) {
            rest.low = value >= rest.low ? rest.low : value;
            rest.high = value <= rest.high ? rest.high : value;
          }
        }
      }
      double far =
          Math.max(Math.abs(rest.low - slot.offset()), Math.abs(rest.high - slot.offset()));
      rest.farthest = Double.isNaN(far) ? 0 : far / Math.abs(slot.factor());
      return rest;
    }
  }

  private static Samples missing(Samples samples, double mark, boolean inFile) throws IOException {
    try (CsvStore store = new CsvStore()) {
      if (inFile) {
        store.moveToFile();
      }
      for (int from = 0; from < samples.size(); from += PIECE) {
        double[] piece = new double[Math.min(PIECE, samples.size() - from)];
        samples.copy(from, piece, 0, piece.length);
        for (int i = 0; i < piece.length; i++) {
          piece[i] = piece[i] == mark ? Double.NaN : piece[i];
        }
        store.append(piece, piece.length);
      }
      return store.finish();
    }
  }
}
