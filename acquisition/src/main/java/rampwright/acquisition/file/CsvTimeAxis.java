package rampwright.acquisition.file;

import java.io.IOException;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.EvenTime;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;

/**
 * Makes a time base of the stamps of a file: unrolls midnight, drops rows that run back or repeat,
 * spreads rows that share a coarse stamp, and says what it did.
 */
final class CsvTimeAxis {
  private static final int PIECE = 8192;
  private static final int PLACES = 3;
  private static final int FINER = 9;

  /** Above this share of rows a clock that runs back is not mended but refused. */
  private static final double MOST_LOST = 0.1;

  /**
   * A time base and the rows it is for.
   *
   * @param dropped rows left out; null when none is
   * @param description for people
   */
  record Axis(TimeBase time, @Nullable BitSet dropped, String description, List<String> warnings) {}

  /**
   * What the stamps are.
   *
   * @param resolutionS last digit written, s
   * @param relative last digit written as a share of the value, for numbers with exponent; else 0
   * @param clock whether they are wall-clock times, which fall back at midnight or with the season
   * @param countS seconds of one count, for numbers
   */
  record Stamps(double resolutionS, double relative, Clock clock, double countS) {}

  /** What kind of clock stamps are of. */
  enum Clock {
    /** Numbers that count on, or stamps that name their offset. */
    NONE,
    /** Hours to seconds without a date. */
    TIME_OF_DAY,
    /** Date and time of a place. */
    LOCAL
  }

  private final String file;
  private final CsvRows rows;
  private final Stamps kind;
  private final boolean inFile;
  private final List<String> warnings = new ArrayList<>();
  private boolean increasing;
  private double gridS;

  CsvTimeAxis(String file, CsvRows rows, Stamps kind, boolean inFile) {
    this.file = file;
    this.rows = rows;
    this.kind = kind;
    this.inFile = inFile;
  }

  Axis axis(Samples read) throws TraceFileException, IOException {
    Samples stamps = read;
    refuseIfShort(stamps);
    scan(stamps);
    if (!increasing || kind.clock() != Clock.NONE) {
      stamps = new CsvUnroll(rows, kind, inFile, warnings).of(stamps);
      scan(stamps);
    }
    BitSet dropped = increasing ? new BitSet() : backward(stamps);
    if (!dropped.isEmpty()) {
      stamps = without(stamps, dropped, inFile);
    }
    refuseIfShort(stamps);
    BitSet repeated = increasing ? new BitSet() : repeated(stamps);
    double resolutionS = Math.max(gridS, kind.relative() * largest(stamps));
    EvenTime even = CsvEvenFit.of(stamps, resolutionS, !repeated.isEmpty());
    if (even != null) {
      if (!repeated.isEmpty()) {
        warnings.add(
            text(
                "%d time stamps repeat, first at line %d; rows were spread evenly every %s s, which"
                    + " agrees with every stamp within its resolution of %s s",
                repeated.cardinality(),
                lineOf(repeated.nextSetBit(0), dropped),
                number(even.stepS()),
                number(resolutionS)));
      }
      return new Axis(
          even,
          dropped.isEmpty() ? null : dropped,
          text(
              "%d rows every %s s (%s Hz), even within the rounding of every stamp",
              even.size(), number(even.stepS()), number(1 / even.stepS())),
          warnings);
    }
    if (!repeated.isEmpty()) {
      stamps = withoutRepeats(stamps, repeated, dropped);
      refuseIfShort(stamps);
    }
    TimeBase listed = TimeBase.listed(stamps);
    return new Axis(
        listed,
        dropped.isEmpty() ? null : dropped,
        text(
            "%d rows at uneven times, median step %s s (about %s Hz)",
            listed.size(), number(listed.typicalStepS()), number(1 / listed.typicalStepS())),
        warnings);
  }

  private void refuseIfShort(Samples stamps) throws TraceFileException {
    if (stamps.size() < 2) {
      throw new TraceFileException(
          file, "holds fewer than two rows with increasing time; a trace needs at least two");
    }
  }

  /**
   * Looks at every stamp once: whether they increase, and what they are all multiples of. The
   * resolution told by the first rows is made finer until it fits.
   */
  private void scan(Samples stamps) {
    double resolutionS = kind.resolutionS();
    double first = stamps.at(0);
    double before = Double.NEGATIVE_INFINITY;
    double noise = 1e-6 * resolutionS + 8 * Math.ulp(largest(stamps));
    int tries = 0;
    boolean rising = true;
    double[] piece = new double[PIECE];
    for (int from = 0; from < stamps.size(); from += PIECE) {
      int count = Math.min(PIECE, stamps.size() - from);
      stamps.copy(from, piece, 0, count);
      for (int i = 0; i < count; i++) {
        double now = piece[i];
        rising &= now > before;
        before = now;
        double away = now - first;
        while (tries < FINER
            && resolutionS > 0
            && Math.abs(away - Math.rint(away / resolutionS) * resolutionS) > noise) {
          resolutionS /= 10;
          tries++;
        }
      }
    }
    increasing = rising;
    gridS = tries < FINER ? resolutionS : 0;
  }

  private static double largest(Samples stamps) {
    return Math.max(Math.abs(stamps.at(0)), Math.abs(stamps.at(stamps.size() - 1)));
  }

  /** Rows whose time is before one already seen. */
  private BitSet backward(Samples stamps) throws TraceFileException {
    BitSet back = new BitSet();
    double latest = stamps.size() == 0 ? 0 : stamps.at(0);
    StringBuilder places = new StringBuilder();
    int runs = 0;
    for (int i = 1; i < stamps.size(); i++) {
      double now = stamps.at(i);
      if (now < latest) {
        if (!back.get(i - 1) && ++runs <= PLACES) {
          places.append(
              text(
                  "%sline %d (%s s after %s s)",
                  runs > 1 ? ", " : "", rows.lineOf(i), number(now), number(latest)));
        }
        back.set(i);
      } else {
        latest = now;
      }
    }
    int count = back.cardinality();
    if (count > Math.max(2, MOST_LOST * stamps.size())) {
      int at = back.nextSetBit(0);
      if (count == stamps.size() - 1) {
        throw new TraceFileException(
            file,
            rows.lineOf(at),
            0,
            text(
                "the rows run from the newest, %s s, to the oldest; times must increase: sort them by"
                    + " time, or export them oldest first",
                number(stamps.at(0))),
            null);
      }
      throw new TraceFileException(
          file,
          rows.lineOf(at),
          0,
          text(
              "time runs back from %s s to %s s, and %d of %d rows lie before a time already passed;"
                  + " times must increase; the clock was reset or the file holds several records:"
                  + " split it at this line",
              number(stamps.at(at - 1)), number(stamps.at(at)), count, stamps.size()),
          null);
    }
    if (count > 0) {
      warnings.add(text("%d rows run back in time and were left out; first at %s", count, places));
    }
    return back;
  }

  private static BitSet repeated(Samples stamps) {
    BitSet repeated = new BitSet();
    double before = stamps.at(0);
    for (int i = 1; i < stamps.size(); i++) {
      double now = stamps.at(i);
      if (now == before) {
        repeated.set(i);
      }
      before = now;
    }
    return repeated;
  }

  private Samples withoutRepeats(Samples stamps, BitSet repeated, BitSet dropped)
      throws TraceFileException, IOException {
    int count = repeated.cardinality();
    long line = lineOf(repeated.nextSetBit(0), dropped);
    if (count > stamps.size() / 2) {
      throw new TraceFileException(
          file,
          line,
          0,
          text(
              "%d of %d time stamps repeat the one before, and no even spacing agrees with all of"
                  + " them; export more digits of the time, or say the rate:\n[columns]\n"
                  + "time = { rate_Hz = 1000 }",
              count, stamps.size()),
          null);
    }
    warnings.add(
        text(
            "%d rows repeat the time stamp before them and were left out; first at line %d",
            count, line));
    Samples kept = without(stamps, repeated, inFile);
    dropped.or(amongAll(repeated, dropped));
    return kept;
  }

  /** Rows counted without the dropped ones, as rows among all. */
  private static BitSet amongAll(BitSet kept, BitSet dropped) {
    BitSet all = new BitSet();
    int row = -1;
    int last = kept.length() - 1;
    for (int i = 0; i <= last; i++) {
      row = dropped.nextClearBit(row + 1);
      if (kept.get(i)) {
        all.set(row);
      }
    }
    return all;
  }

  private long lineOf(int keptRow, BitSet dropped) {
    int row = -1;
    for (int i = 0; i <= keptRow; i++) {
      row = dropped.nextClearBit(row + 1);
    }
    return rows.lineOf(row);
  }

  /** The samples of rows that are not dropped. */
  static Samples without(Samples samples, BitSet dropped, boolean inFile) throws IOException {
    try (CsvStore store = store(inFile)) {
      int from = dropped.nextClearBit(0);
      while (from < samples.size()) {
        int next = dropped.nextSetBit(from);
        int end = next < 0 ? samples.size() : Math.min(next, samples.size());
        for (int at = from; at < end; at += PIECE) {
          double[] piece = new double[Math.min(PIECE, end - at)];
          samples.copy(at, piece, 0, piece.length);
          store.append(piece, piece.length);
        }
        from = dropped.nextClearBit(end);
      }
      return store.finish();
    }
  }

  private static CsvStore store(boolean inFile) throws IOException {
    CsvStore store = new CsvStore();
    if (inFile) {
      store.moveToFile();
    }
    return store;
  }

  /** A number short enough for a message. */
  static String number(double value) {
    if (!Double.isFinite(value)) {
      return Double.toString(value);
    }
    if (value == Math.rint(value) && Math.abs(value) < 1e9) {
      return Long.toString((long) value);
    }
    java.math.BigDecimal rounded =
        new java.math.BigDecimal(value).round(new java.math.MathContext(7)).stripTrailingZeros();
    double size = Math.abs(value);
    return size >= 1e-6 && size < 1e12 ? rounded.toPlainString() : rounded.toString();
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
