package rampwright.acquisition.file;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;

/**
 * The time axis of a COMTRADE record, out of its sampling rates and stamps.
 *
 * <p>Rates rule inside a stretch, because stamps are rounded. Between stretches the stamps say how
 * long it took. Where the stamps show gaps inside a stretch, or there are no rates, the stamps
 * rule. Where stamps and rates contradict each other altogether, rates rule and it is said.
 *
 * @param time instants of the rows kept
 * @param keep rows that have an instant; null when all do
 * @param rule how the axis was made, in words
 * @param firstRecordS time of the first record on the same axis, kept or not
 */
record ComtradeTiming(TimeBase time, @Nullable BitSet keep, String rule, double firstRecordS) {
  private static final double CLOCK_DRIFT = 2e-3;
  private static final double SAME_STEP = 0.02;
  private static final int STEPS_LOOKED_AT = 10_000;

  /** A stretch of rows of one rate; {@code startS} is the time of its first row. */
  private record Stretch(int from, int to, double rateHz, double startS) {
    double atS(int row) {
      return startS + (row - from) / rateHz;
    }
  }

  /**
   * The time axis.
   *
   * @param stampsS stamp of each record, s; NaN where there is none
   * @param leaveOut rows not wanted; null for none
   * @throws TraceFileException when neither rates nor stamps tell the time
   */
  static ComtradeTiming of(
      String name,
      ComtradeConfig config,
      Samples stampsS,
      @Nullable BitSet leaveOut,
      long heapBytes,
      List<String> warnings)
      throws IOException, TraceFileException {
    checkCount(name, config, stampsS.size(), warnings);
    boolean stamped = isStamped(stampsS);
    if (!config.hasRates()) {
      if (!stamped) {
        throw new TraceFileException(
            name,
            "has no sampling rate in its configuration and no rising time stamps in its data; add"
                + " the rate to the configuration (lines 1 and samples a second,last sample)");
      }
      return byStamps(name, config, stampsS, leaveOut, heapBytes, warnings, "stamps");
    }
    List<Stretch> stretches = stretches(config, stampsS, stamped);
    if (stamped) {
      double step = usualStepS(stampsS, stretches.get(0));
      boolean agree = true;
      for (Stretch stretch : stretches) {
        agree &= agrees(stretch, stampsS, config.stampUnitS());
      }
      if (!agree) {
        double byRate = 1 / stretches.get(0).rateHz();
        if (Math.abs(step - byRate) <= SAME_STEP * byRate + 1.01 * config.stampUnitS()) {
          warnings.add(
              name
                  + ": the stamps show gaps or another pace than the sampling rate; the stamps are"
                  + " taken");
          return byStamps(name, config, stampsS, leaveOut, heapBytes, warnings, "stamps");
        }
        warnings.add(
            String.format(
                Locale.ROOT,
                "%s: stamps step by %.6g s, the sampling rate %.6g Hz means %.6g s; the rate is"
                    + " taken, the stamps are not",
                name,
                step,
                stretches.get(0).rateHz(),
                byRate));
        stretches = stretches(config, stampsS, false);
        stamped = false;
      }
    }
    return byRates(name, stampsS.size(), stretches, leaveOut, heapBytes, stamped);
  }

  private static void checkCount(
      String name, ComtradeConfig config, int found, List<String> warnings) {
    if (config.promisedSamples() > 0 && config.promisedSamples() != found) {
      warnings.add(
          name
              + ": the configuration promises "
              + config.promisedSamples()
              + " samples, the data hold "
              + found
              + (found < config.promisedSamples()
                  ? "; those are used"
                  : "; all are used, at the last rate"));
    }
  }

  /** Stamps tell something when they rise at least half of the time. */
  private static boolean isStamped(Samples stampsS) {
    int rising = 0;
    for (int i = 1; i < stampsS.size(); i++) {
      if (stampsS.at(i) > stampsS.at(i - 1)) {
        rising++;
      }
    }
    return stampsS.size() > 1 && rising >= (stampsS.size() - 1) / 2.0;
  }

  private static List<Stretch> stretches(ComtradeConfig config, Samples stampsS, boolean stamped) {
    int size = stampsS.size();
    List<Stretch> stretches = new ArrayList<>();
    double first = stampsS.at(0);
    double startS = stamped && !Double.isNaN(first) ? first : 0;
    int from = 0;
    for (int r = 0; r < config.rates().size() && from < size; r++) {
      ComtradeRate rate = config.rates().get(r);
      boolean isLast = r == config.rates().size() - 1;
      int to = isLast ? size : (int) Math.min(size, rate.lastSample());
      if (to == from) {
        continue;
      }
      Stretch stretch = new Stretch(from, to, rate.rateHz(), startS);
      stretches.add(stretch);
      // A sample's rate holds until the next sample.
      double lastS = stretch.atS(to - 1);
      double stepS = 1 / rate.rateHz();
      if (to < size && stamped) {
        double gapS = stampsS.at(to) - stampsS.at(to - 1);
        if (gapS > 0 && Math.abs(gapS - stepS) > stepS / 2 + config.stampUnitS()) {
          stepS = gapS;
        }
      }
      startS = lastS + stepS;
      from = to;
    }
    return stretches;
  }

  private static boolean agrees(Stretch stretch, Samples stampsS, double unitS) {
    double zero = stampsS.at(stretch.from());
    for (int i = stretch.from() + 1; i < stretch.to(); i++) {
      double byStamp = stampsS.at(i) - zero;
      double byRate = (i - stretch.from()) / stretch.rateHz();
      if (Math.abs(byStamp - byRate) > 0.5 / stretch.rateHz() + CLOCK_DRIFT * byRate + 2 * unitS) {
        return false;
      }
    }
    return true;
  }

  private static double usualStepS(Samples stampsS, Stretch stretch) {
    int steps = stretch.to() - stretch.from() - 1;
    if (steps < 1) {
      return Double.NaN;
    }
    int stride = Math.max(1, steps / STEPS_LOOKED_AT);
    double[] seen = new double[(steps + stride - 1) / stride];
    for (int k = 0; k < seen.length; k++) {
      int i = stretch.from() + k * stride;
      seen[k] = stampsS.at(i + 1) - stampsS.at(i);
    }
    Arrays.sort(seen);
    return seen[seen.length / 2];
  }

  private static ComtradeTiming byRates(
      String name,
      int size,
      List<Stretch> stretches,
      @Nullable BitSet leaveOut,
      long heapBytes,
      boolean stamped)
      throws IOException, TraceFileException {
    Stretch first = stretches.get(0);
    String rule = stretches.size() == 1 ? "sampling rate" : "sampling rates";
    if (stamped) {
      rule += ", beginning at the first stamp";
    }
    if (isOnePace(stretches) && leaveOut == null) {
      return new ComtradeTiming(
          TimeBase.even(first.startS(), 1 / first.rateHz(), size), null, rule, first.startS());
    }
    if (stretches.size() > 1 && stamped) {
      rule += ", stamps between stretches";
    }
    BitSet keep = null;
    if (leaveOut != null) {
      keep = (BitSet) leaveOut.clone();
      keep.flip(0, size);
    }
    int rows = keep == null ? size : keep.cardinality();
    try (ComtradeColumns times = new ComtradeColumns(1, rows, heapBytes)) {
      for (Stretch stretch : stretches) {
        for (int i = stretch.from(); i < stretch.to(); i++) {
          if (keep == null || keep.get(i)) {
            times.set(0, stretch.atS(i));
            times.endRow();
          }
        }
      }
      return new ComtradeTiming(listed(name, times.finish(0).get(0)), keep, rule, first.startS());
    } catch (ComtradeColumns.TooManyRows e) {
      throw new TraceFileException(name, 0, 0, ComtradeBinaryData.tooMany(e), e);
    }
  }

  private static TimeBase listed(String name, Samples timesS) throws TraceFileException {
    for (int i = 1; i < timesS.size(); i++) {
      if (!(timesS.at(i) > timesS.at(i - 1))) {
        throw new TraceFileException(
            name,
            "the sampling rates are so high or the stamps so far off that instants coincide at"
                + " sample "
                + (i + 1)
                + "; correct the rates in the configuration");
      }
    }
    return TimeBase.listed(timesS);
  }

  private static boolean isOnePace(List<Stretch> stretches) {
    for (int s = 1; s < stretches.size(); s++) {
      Stretch before = stretches.get(s - 1);
      Stretch now = stretches.get(s);
      double stepS = 1 / before.rateHz();
      if (now.rateHz() != before.rateHz()
          || Math.abs(before.atS(before.to()) - now.startS()) > stepS * 1e-3) {
        return false;
      }
    }
    return true;
  }

  private static ComtradeTiming byStamps(
      String name,
      ComtradeConfig config,
      Samples stampsS,
      @Nullable BitSet leaveOut,
      long heapBytes,
      List<String> warnings,
      String rule)
      throws IOException, TraceFileException {
    int size = stampsS.size();
    BitSet keep = new BitSet(size);
    double last = Double.NEGATIVE_INFINITY;
    int dropped = 0;
    int firstDropped = 0;
    for (int i = 0; i < size; i++) {
      if (leaveOut != null && leaveOut.get(i)) {
        continue;
      }
      if (stampsS.at(i) > last) {
        last = stampsS.at(i);
        keep.set(i);
      } else if (dropped++ == 0) {
        firstDropped = i + 1;
      }
    }
    int rows = keep.cardinality();
    if (dropped > 0) {
      warnings.add(
          name
              + ": "
              + dropped
              + " records have no stamp or one that does not rise, first record "
              + firstDropped
              + "; left out");
    }
    if (rows < 2) {
      throw new TraceFileException(
          name, "fewer than two records have a rising time stamp; there is no time axis to use");
    }
    double firstS = stampsS.at(keep.nextSetBit(0));
    double stepS = (last - firstS) / (rows - 1);
    if (rows == size && isStraight(stampsS, firstS, stepS, config.stampUnitS())) {
      return new ComtradeTiming(
          TimeBase.even(firstS, stepS, size), null, rule + ", even to their resolution", firstS);
    }
    try (ComtradeColumns times = new ComtradeColumns(1, rows, heapBytes)) {
      for (int i = keep.nextSetBit(0); i >= 0; i = keep.nextSetBit(i + 1)) {
        times.set(0, stampsS.at(i));
        times.endRow();
      }
      return new ComtradeTiming(
          TimeBase.listed(times.finish(0).get(0)),
          rows == size ? null : keep,
          rule,
          Double.isNaN(stampsS.at(0)) ? firstS : stampsS.at(0));
    } catch (ComtradeColumns.TooManyRows e) {
      throw new TraceFileException(name, 0, 0, ComtradeBinaryData.tooMany(e), e);
    }
  }

  private static boolean isStraight(Samples stampsS, double firstS, double stepS, double unitS) {
    for (int i = 0; i < stampsS.size(); i++) {
      if (!(Math.abs(stampsS.at(i) - (firstS + i * stepS)) <= 1.01 * unitS)) {
        return false;
      }
    }
    return true;
  }
}
