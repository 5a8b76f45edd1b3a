package rampwright.acquisition.file;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.Samples;

/**
 * Counts on clocks that fall back for a reason that can be told: at midnight, at the end of summer
 * time, or when a counter of so many bits is full. Other falls are left to {@link CsvTimeAxis}.
 */
final class CsvUnroll {
  private static final double DAY_S = 86_400;
  private static final double HOUR_S = 3600;
  private static final int PIECE = 8192;
  private static final int FALLS_KEPT = 10_000;

  /** Counters as recorders have them: 16, 24, 31 and 32 bits. */
  private static final double[] FULL = {
    1L << 16, 1L << 24, 1L << 31, 1L << 32,
  };

  /** A step across the fall may differ from the others by this share of them. */
  private static final double STEP_TOLERANCE = 0.5;

  /** Where a clock falls back or leaps, and how far it goes in an ordinary step. */
  private record Course(List<Integer> falls, int leap, double stepS) {}

  private final CsvRows rows;
  private final CsvTimeAxis.Stamps kind;
  private final boolean inFile;
  private final List<String> warnings;

  CsvUnroll(CsvRows rows, CsvTimeAxis.Stamps kind, boolean inFile, List<String> warnings) {
    this.rows = rows;
    this.kind = kind;
    this.inFile = inFile;
    this.warnings = warnings;
  }

  Samples of(Samples read) throws IOException {
    Course course = course(read);
    if (course.leap >= 0 && kind.clock() != CsvTimeAxis.Clock.NONE) {
      warnings.add(
          text(
              "the clock leaps by an hour at line %d, as at the beginning of summer time; the times"
                  + " are kept as written",
              rows.lineOf(course.leap)));
    }
    if (course.falls.isEmpty() || course.falls.size() > FALLS_KEPT) {
      return read;
    }
    double[] shifts =
        kind.clock() == CsvTimeAxis.Clock.NONE ? ofCounter(read, course) : ofClock(read, course);
    return shifts == null ? read : shifted(read, course.falls, shifts);
  }

  private double @Nullable [] ofClock(Samples read, Course course) {
    double[] shifts = new double[course.falls.size()];
    int midnights = 0;
    int hours = 0;
    for (int i = 0; i < shifts.length; i++) {
      int at = course.falls.get(i);
      double fall = read.at(at - 1) - read.at(at);
      double tolerance = STEP_TOLERANCE * course.stepS + kind.resolutionS();
      if (kind.clock() == CsvTimeAxis.Clock.TIME_OF_DAY && fall > DAY_S / 2) {
        shifts[i] = DAY_S;
        midnights++;
      } else if (Math.abs(HOUR_S - fall - course.stepS) <= tolerance) {
        shifts[i] = HOUR_S;
        hours++;
      }
    }
    if (midnights > 0) {
      warnings.add("the clock passes midnight; the times after it were counted on");
    }
    if (hours > 0) {
      warnings.add(
          text(
              "the clock falls back by an hour at line %d, as at the end of summer time; the times"
                  + " after it were counted on",
              rows.lineOf(course.falls.get(0))));
    }
    return midnights + hours > 0 ? shifts : null;
  }

  private double @Nullable [] ofCounter(Samples read, Course course) {
    double largest = 0;
    for (int at : course.falls) {
      largest = Math.max(largest, read.at(at - 1));
    }
    for (double full : FULL) {
      double fullS = full * kind.countS();
      if (!(fullS > largest)) {
        continue;
      }
      boolean agrees = true;
      for (int at : course.falls) {
        double step = read.at(at) + fullS - read.at(at - 1);
        agrees &= Math.abs(step - course.stepS) <= STEP_TOLERANCE * course.stepS;
      }
      if (agrees) {
        warnings.add(
            text(
                "the counter of the time is full at %s and begins anew, first at line %d; the times"
                    + " after it were counted on",
                CsvTimeAxis.number(full), rows.lineOf(course.falls.get(0))));
        double[] shifts = new double[course.falls.size()];
        Arrays.fill(shifts, fullS);
        return shifts;
      }
    }
    return null;
  }

  private static Course course(Samples read) {
    List<Integer> falls = new ArrayList<>();
    List<Integer> leaps = new ArrayList<>();
    double[] steps = new double[Math.min(read.size(), PIECE)];
    int count = 0;
    double[] piece = new double[PIECE];
    double before = Double.NaN;
    for (int from = 0; from < read.size() && falls.size() <= FALLS_KEPT; from += PIECE) {
      int length = Math.min(PIECE, read.size() - from);
      read.copy(from, piece, 0, length);
      for (int i = 0; i < length; i++) {
        double step = piece[i] - before;
        before = piece[i];
        if (step < 0) {
          falls.add(from + i);
        } else if (step >= HOUR_S && leaps.isEmpty()) {
          leaps.add(from + i);
        } else if (step >= 0 && count < steps.length) {
          steps[count++] = step;
        }
      }
    }
    Arrays.sort(steps, 0, count);
    double stepS = count == 0 ? 0 : steps[count / 2];
    int leap = leaps.isEmpty() ? -1 : leaps.get(0);
    boolean hour =
        leap > 0
            && Math.abs(read.at(leap) - read.at(leap - 1) - HOUR_S - stepS)
                <= STEP_TOLERANCE * stepS;
    return new Course(falls, hour ? leap : -1, stepS);
  }

  private Samples shifted(Samples read, List<Integer> falls, double[] shifts) throws IOException {
    try (CsvStore store = new CsvStore()) {
      if (inFile) {
        store.moveToFile();
      }
      int next = 0;
      double shift = 0;
      for (int from = 0; from < read.size(); from += PIECE) {
        double[] piece = new double[Math.min(PIECE, read.size() - from)];
        read.copy(from, piece, 0, piece.length);
        for (int i = 0; i < piece.length; i++) {
          if (next < shifts.length && falls.get(next) == from + i) {
            shift += shifts[next++];
          }
          piece[i] += shift;
        }
        store.append(piece, piece.length);
      }
      return store.finish();
    }
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
