package rampwright.exam.stress;

import java.util.EnumMap;
import java.util.Map;
import java.util.Random;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Provenance;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;
import rampwright.analysis.trace.Trace;
import rampwright.exam.plant.Run;
import rampwright.exam.plant.TrueSupply;

/**
 * A meter of RMS values with the faults of meters.
 *
 * @param rateHz readings a second
 * @param averageS time a reading averages over
 * @param centred true: about its stamp; false: back from it
 * @param uneven standard deviation of a reading's time, share of the interval
 * @param lost share of the readings lost one by one
 * @param bursts chance a reading begins a burst of five to twelve lost ones
 * @param stepA resolution of a current
 * @param stepRpm resolution of the speed; NaN: no speed channel
 * @param zeroA what a current channel shows at rest
 * @param driftA by how much that moves over the record
 * @param phases how many currents are measured
 * @param voltage whether voltages are
 * @param leadOffS from here phase 2 shows nothing; NaN: it does not happen
 */
record ReadingMeter(
    double rateHz,
    double averageS,
    boolean centred,
    double uneven,
    double lost,
    double bursts,
    double stepA,
    double stepRpm,
    double zeroA,
    double driftA,
    int phases,
    boolean voltage,
    double leadOffS) {
  private static final double NOISE = 0.003;

  /** An ordinary meter: one cycle about the stamp, a little jitter, a few lost readings. */
  static ReadingMeter ordinary(double rateHz, double ratedA, double stepRpm) {
    double stepA = ratedA > 400 ? 1 : 0.1;
    return new ReadingMeter(
        rateHz, 0.02, true, 0.05, 0.002, 0, stepA, stepRpm, 0, 0, 3, true, Double.NaN);
  }

  ReadingMeter averaging(double s, boolean about) {
    return new ReadingMeter(
        rateHz, s, about, uneven, lost, bursts, stepA, stepRpm, zeroA, driftA, phases, voltage,
        leadOffS);
  }

  ReadingMeter uneven(double share) {
    return new ReadingMeter(
        rateHz, averageS, centred, share, lost, bursts, stepA, stepRpm, zeroA, driftA, phases,
        voltage, leadOffS);
  }

  ReadingMeter losing(double bursts) {
    return new ReadingMeter(
        rateHz, averageS, centred, uneven, 0.02, bursts, stepA, stepRpm, zeroA, driftA, phases,
        voltage, leadOffS);
  }

  ReadingMeter coarse(double stepA, double stepRpm) {
    return new ReadingMeter(
        rateHz, averageS, centred, uneven, lost, bursts, stepA, stepRpm, zeroA, driftA, phases,
        voltage, leadOffS);
  }

  ReadingMeter zero(double offA, double movesA) {
    return new ReadingMeter(
        rateHz, averageS, centred, uneven, lost, bursts, stepA, stepRpm, offA, movesA, phases,
        voltage, leadOffS);
  }

  ReadingMeter only(int phases, boolean voltage) {
    return new ReadingMeter(
        rateHz, averageS, centred, uneven, lost, bursts, stepA, stepRpm, zeroA, driftA, phases,
        voltage, leadOffS);
  }

  ReadingMeter leadOff(double s) {
    return new ReadingMeter(
        rateHz, averageS, centred, uneven, lost, bursts, stepA, stepRpm, zeroA, driftA, phases,
        voltage, s);
  }

  /** Readings of some runs one after the other, from {@code fromS} of the first on. */
  Trace read(Course course, TrueSupply supply, double ratedA, double fromS, Random random) {
    double intervalS = 1 / rateHz;
    int most = (int) ((course.endS() - fromS) * rateHz);
    double[] gains = new double[6];
    for (int c = 0; c < 6; c++) {
      gains[c] = 1 + 0.004 * random.nextGaussian();
    }
    double[] t = new double[most];
    double[][] values = new double[7][most];
    int n = 0;
    int burst = 0;
    double lastS = Double.NEGATIVE_INFINITY;
    for (int k = 0; k < most; k++) {
      double atS = fromS + (k + 0.5) * intervalS + uneven * intervalS * random.nextGaussian();
      atS = Math.min(course.endS(), Math.max(lastS + 0.1 * intervalS, atS));
      lastS = atS;
      double endS = centred ? atS + averageS / 2 : atS;
      double current = course.rms(0, endS - averageS, endS);
      double line = course.rms(1, endS - averageS, endS);
      double zero = zeroA + driftA * k / most;
      for (int p = 0; p < 3; p++) {
        double share = p == 1 && atS >= leadOffS ? 0 : supply.currentShares()[p];
        double value = current * share * gains[p] * (1 + NOISE * random.nextGaussian());
        value = Math.abs(value + zero + 0.0012 * ratedA * random.nextGaussian());
        values[p][n] = stepped(value, stepA);
        double v = line * supply.lineShares()[p] * gains[3 + p];
        values[3 + p][n] = stepped(v * (1 + 0.5 * NOISE * random.nextGaussian()), 0.5);
      }
      double rpm = course.rpm(atS);
      double shown = rpm + (rpm > 0 ? 0.6 * stepRpm + 0.0002 * rpm : 0) * random.nextGaussian();
      values[6][n] = stepped(Math.max(0, shown), stepRpm);
      t[n] = atS;
      burst = burst > 0 ? burst - 1 : random.nextDouble() < bursts ? 5 + random.nextInt(8) : 0;
      if (burst == 0 && random.nextDouble() >= lost) {
        n++;
      }
    }
    Map<ChannelName, Samples> channels = new EnumMap<>(ChannelName.class);
    for (int p = 0; p < phases; p++) {
      channels.put(ChannelName.CURRENTS.get(p), cut(values[p], n));
    }
    for (int l = 0; voltage && l < 3; l++) {
      channels.put(ChannelName.LINE_VOLTAGES.get(l), cut(values[3 + l], n));
    }
    if (!Double.isNaN(stepRpm)) {
      channels.put(ChannelName.SPEED, cut(values[6], n));
    }
    return new Trace(
        TimeBase.listed(cut(t, n)), channels, null, Provenance.computed("made for a stress case"));
  }

  private static Samples cut(double[] values, int n) {
    return Samples.owning(java.util.Arrays.copyOf(values, n));
  }

  private static double stepped(double value, double step) {
    return Math.rint(value / step) * step;
  }

  /** Several runs one after the other as one course of current, voltage and speed. */
  static final class Course {
    private final double[][] squares;
    private final double[] rpm;

    /** The runs in the order given, each beginning where the one before ends. */
    Course(Run... runs) {
      int size = 0;
      for (Run run : runs) {
        size += run.size();
      }
      squares = new double[2][size + 1];
      rpm = new double[size];
      int at = 0;
      for (Run run : runs) {
        for (int n = 0; n < run.size(); n++, at++) {
          // What a run keeps at an instant held since the one before.
          squares[0][at + 1] = squares[0][at] + square(run.currentA(n));
          squares[1][at + 1] = squares[1][at] + square(run.lineV(n));
          rpm[at] = run.speedRadPerS(n) * 30 / Math.PI;
        }
      }
    }

    double endS() {
      return (rpm.length - 1) * Run.STEP_S;
    }

    double rms(int which, double fromS, double toS) {
      double a = sum(which, fromS);
      double b = sum(which, toS);
      return Math.sqrt(Math.max(0, b - a) / ((toS - fromS) / Run.STEP_S));
    }

    /** Sum of squares up to an instant; before the record all is as at its begin. */
    private double sum(int which, double atS) {
      double[] sums = squares[which];
      double position = atS / Run.STEP_S + 1;
      int n = (int) Math.floor(position);
      if (n < 0) {
        return position * (sums[1] - sums[0]);
      }
      if (n >= sums.length - 1) {
        int last = sums.length - 1;
        return sums[last] + (position - last) * (sums[last] - sums[last - 1]);
      }
      return sums[n] + (position - n) * (sums[n + 1] - sums[n]);
    }

    double rpm(double atS) {
      double position = Math.max(0, Math.min(rpm.length - 1.001, atS / Run.STEP_S));
      int n = (int) position;
      return rpm[n] + (position - n) * (rpm[n + 1] - rpm[n]);
    }

    private static double square(double x) {
      return x * x;
    }
  }
}
