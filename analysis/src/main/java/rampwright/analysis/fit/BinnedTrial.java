package rampwright.analysis.fit;

import org.jspecify.annotations.Nullable;
import rampwright.analysis.machine.RunPlan;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.StopMode;

/**
 * A trial thinned to a few dozen points with standard deviations, and the few numbers that say most
 * about it. Times count from inception; values are per unit of the nameplate.
 *
 * <p>Model error is alike from reading to reading, so a thousand readings do not tell a thousand
 * times what one tells: each stretch counts as a stated number of independent points.
 */
final class BinnedTrial {
  private static final int START_POINTS = 36;
  private static final int RUN_POINTS = 6;
  private static final int STOP_POINTS = 14;
  private static final int COAST_POINTS = 12;
  private static final double START_INDEPENDENT = 12;
  private static final double RUN_INDEPENDENT = 2;
  private static final double STOP_INDEPENDENT = 6;
  private static final double COAST_INDEPENDENT = 6;
  private static final int AVERAGED = 2;
  private static final double LONGEST_GAP = 3.5;

  /** Speed, of synchronous, at which the shaft is said to have turned. */
  static final double TURNED_SPEED = 0.015;

  private static final double CURRENT_SHARE = 0.01;
  private static final double CURRENT_FLOOR = 0.008;
  private static final double DIP_SHARE = 0.02;
  private static final double DIP_FLOOR = 0.0015;
  private static final double SPEED_FLOOR = 0.006;
  private static final double TIME_SHARE = 0.006;

  /** One point: time and its uncertainty, values (NaN without) and their standard deviations. */
  record Point(
      double timeS,
      double reachS,
      double current,
      double currentSigma,
      double voltage,
      double voltageSigma,
      double speed,
      double speedSigma) {}

  final TrialObservation trial;
  final Point[] points;
  private final double followS;
  final double cutS;
  final boolean completed;

  /** Instant at which current last falls through half way from peak to run; NaN without. */
  final double halfFallS;

  final double halfFallLevel;
  final double halfFallSigma;
  final double fullSpeedS;
  final double fullSpeedSigma;

  /** Integral of squared current from inception to the half fall (or the cut), s. */
  final double heat;

  final double heatUntilS;
  final double peak;
  final double lowestVoltage;
  final double sourceVoltagePu;
  final double restS;

  /** First lasting turn of the shaft, to compare with breakaway; NaN without a speed. */
  final double turnedS;

  private final double ratedCurrentA;
  private final double ratedVoltageV;
  private final double syncSpeedRpm;
  private final double[] time;

  BinnedTrial(TrialObservation trial, AssetData data) {
    this.trial = trial;
    this.ratedCurrentA = data.measuredRatedCurrentA();
    this.ratedVoltageV = data.plate().ratedVoltageV();
    this.syncSpeedRpm = data.plate().syncSpeedRpm();
    this.completed = trial.end() == TrialObservation.End.COMPLETED;
    double[] stamps = trial.timeS();
    this.time = new double[stamps.length];
    for (int k = 0; k < time.length; k++) {
      time[k] = stamps[k] - trial.inceptionS();
    }
    double recordEnd = time.length == 0 ? 0 : time[time.length - 1];
    double release = trial.releaseS() - trial.inceptionS();
    double stop = trial.stopBeginS() - trial.inceptionS();
    if (completed) {
      cutS = Double.isNaN(stop) ? (Double.isNaN(release) ? recordEnd : release) : stop;
    } else {
      cutS = Double.isNaN(release) ? recordEnd : release;
    }
    double source =
        Double.isNaN(trial.sourceVoltageV()) ? data.supplyVoltageV() : trial.sourceVoltageV();
    sourceVoltagePu = source / ratedVoltageV;
    peak = smoothedPeak(0, cutS);
    double run = completed ? average(trial.currentA(), cutS - 1.5, cutS - 0.05) : Double.NaN;
    run /= ratedCurrentA;
    halfFallLevel = run + 0.5 * (peak - run);
    halfFallS = completed && peak > 1.4 * run ? lastFall(halfFallLevel) : Double.NaN;
    fullSpeedS = completed ? speedReached() : Double.NaN;
    turnedS = turned();
    double timing = 0.5 * trial.intervalS() + 0.015;
    halfFallSigma = Math.hypot(TIME_SHARE, timing / Math.max(0.1, halfFallS));
    fullSpeedSigma = Math.hypot(TIME_SHARE, timing / Math.max(0.1, fullSpeedS));
    heatUntilS = Double.isNaN(halfFallS) ? cutS : halfFallS;
    heat = squares(heatUntilS);
    lowestVoltage = lowestVoltage();
    boolean stopSeen = completed && !Double.isNaN(stop) && !Double.isNaN(release);
    boolean coastSeen = stopSeen && trial.speedRpm() != null;
    restS = coastSeen ? rest(release) : Double.NaN;
    double follow = coastSeen ? (Double.isNaN(restS) ? recordEnd : restS * 1.2 + 1) - cutS : 0;
    boolean soft = acted().stop() == StopMode.SOFT;
    boolean simulate = stopSeen && (soft || coastSeen);
    followS = simulate ? Math.max(follow, release - stop + 2) : 0;
    points = points(release, stopSeen && soft, coastSeen, recordEnd);
  }

  /** How long to simulate, the stop order moved by a shift. */
  RunPlan plan(double stopShiftS) {
    double cut = Math.max(0.1, cutS + stopShiftS);
    return new RunPlan(cut, 0, cut, followS > 0, followS);
  }

  /**
   * The settings as they acted: a soft stop whose current ceases with the order was not led, be it
   * that the starter gave up at its own limit on the starting time or that somebody cut it.
   */
  StarterSettings acted() {
    StarterSettings set = trial.settings();
    boolean atOnce = trial.releaseS() - trial.stopBeginS() <= trial.intervalS();
    return set.stop() == StopMode.SOFT && atOnce
        ? new StarterSettings(
            set.currentLimitRatio(),
            set.control(),
            set.rampUpS(),
            set.initialTorquePct(),
            set.initialVoltagePct(),
            set.pulseVoltagePct(),
            set.pulseS(),
            StopMode.COAST,
            set.releaseTorquePct(),
            set.rampDownS())
        : set;
  }

  /** Whether the instant of the stop order is in doubt and matters. */
  boolean stopInDoubt() {
    return followS > 0 && acted().stop() == StopMode.SOFT && trial.stopBeginSigmaS() > 0.01;
  }

  private Point[] points(double release, boolean soft, boolean coast, double recordEnd) {
    double settle = Double.isNaN(halfFallS) ? fullSpeedS : halfFallS;
    double startEnd =
        completed && !Double.isNaN(settle) ? Math.min(cutS, 1.15 * settle + 0.5) : cutS;
    java.util.ArrayList<Point> list = new java.util.ArrayList<>();
    spread(list, 0, startEnd, START_POINTS, START_INDEPENDENT, 1.35);
    if (cutS - startEnd > 0.3) {
      spread(list, startEnd, cutS, RUN_POINTS, RUN_INDEPENDENT, 1);
    }
    if (soft) {
      spread(list, cutS, release, STOP_POINTS, STOP_INDEPENDENT, 1);
    }
    if (coast) {
      double until = Double.isNaN(restS) ? recordEnd : restS;
      spread(list, release, until, COAST_POINTS, COAST_INDEPENDENT, 1);
    }
    return list.toArray(new Point[0]);
  }

  private void spread(
      java.util.List<Point> into,
      double from,
      double to,
      int count,
      double independent,
      double crowding) {
    double width = (to - from) / count;
    if (!(width > 0)) {
      return;
    }
    double inflate = Math.sqrt(count / Math.min(count, independent));
    double guard = 0.6 * trial.intervalS() + 0.01;
    int previous = -1;
    for (int k = 0; k < count; k++) {
      // Closer together at the beginning, where breakaway is.
      double centre = from + (to - from) * Math.pow((k + 0.5) / count, crowding);
      int index = nearest(centre);
      boolean inside = time[index] > from + guard && time[index] < to - guard;
      if (index == previous || !inside || Math.abs(time[index] - centre) > width) {
        continue;
      }
      previous = index;
      int low = index;
      int high = index;
      while (index - low < AVERAGED
          && low > 0
          && time[low - 1] > from + guard
          && time[index] - time[low - 1] < 0.5 * width) {
        low--;
      }
      while (high - index < AVERAGED
          && high < time.length - 1
          && time[high + 1] < to - guard
          && time[high + 1] - time[index] < 0.5 * width) {
        high++;
      }
      into.add(point(low, high, width, inflate));
    }
  }

  private Point point(int low, int high, double width, double inflate) {
    double at = 0;
    for (int k = low; k <= high; k++) {
      at += time[k] / (high - low + 1);
    }
    double current = average(trial.currentA(), low, high) / ratedCurrentA;
    // A stop is timed from its order: how long the start and the run took is no part of its error.
    double since = at > cutS ? at - cutS : at;
    double timing = TIME_SHARE * since + 0.4 * trial.intervalS() + 0.01;
    double currentSigma =
        Math.hypot(
            CURRENT_SHARE * current + CURRENT_FLOOR,
            timing * slope(trial.currentA(), at, width) / ratedCurrentA);
    double voltage = Double.NaN;
    double voltageSigma = 1;
    double @Nullable [] volts = trial.voltageV();
    if (volts != null) {
      voltage = average(volts, low, high) / ratedVoltageV;
      voltageSigma =
          Math.hypot(
              DIP_FLOOR + DIP_SHARE * Math.abs(sourceVoltagePu - voltage),
              timing * slope(volts, at, width) / ratedVoltageV);
    }
    double speed = Double.NaN;
    double speedSigma = 1;
    double @Nullable [] rpm = trial.speedRpm();
    if (rpm != null) {
      speed = average(rpm, low, high) / syncSpeedRpm;
      speedSigma = Math.hypot(SPEED_FLOOR, timing * slope(rpm, at, width) / syncSpeedRpm);
    }
    return new Point(
        at,
        timing,
        current,
        currentSigma * inflate,
        voltage,
        voltageSigma * inflate,
        speed,
        speedSigma * inflate);
  }

  private double slope(double[] values, double at, double width) {
    double reach = Math.max(width, 1.5 * trial.intervalS());
    int low = nearest(at - 0.5 * reach);
    int high = nearest(at + 0.5 * reach);
    if (high <= low || Double.isNaN(values[low]) || Double.isNaN(values[high])) {
      return 0;
    }
    return Math.abs((values[high] - values[low]) / (time[high] - time[low]));
  }

  private int nearest(double at) {
    int index = java.util.Arrays.binarySearch(time, at);
    if (index >= 0) {
      return index;
    }
    int after = Math.min(time.length - 1, -index - 1);
    int before = Math.max(0, after - 1);
    return at - time[before] < time[after] - at ? before : after;
  }

  private static double average(double[] values, int low, int high) {
    double sum = 0;
    int count = 0;
    for (int k = low; k <= high; k++) {
      if (!Double.isNaN(values[k])) {
        sum += values[k];
        count++;
      }
    }
    return count == 0 ? Double.NaN : sum / count;
  }

  private double average(double[] values, double from, double to) {
    int low = 0;
    while (low < time.length - 1 && time[low] < from) {
      low++;
    }
    int high = low;
    while (high < time.length - 1 && time[high + 1] <= to) {
      high++;
    }
    return average(values, low, high);
  }

  /** Largest running mean over 0.25 s or three readings: noise lifts a largest reading. */
  private double smoothedPeak(double from, double to) {
    double best = 0;
    double[] a = trial.currentA();
    int half = Math.max(1, (int) Math.round(0.125 / trial.intervalS()));
    for (int k = half; k + half < time.length; k++) {
      if (time[k - half] > from && time[k + half] < to) {
        double mean = average(a, k - half, k + half);
        best = Double.isNaN(mean) ? best : Math.max(best, mean);
      }
    }
    return best / ratedCurrentA;
  }

  private double lowestVoltage() {
    double @Nullable [] volts = trial.voltageV();
    if (volts == null) {
      return Double.NaN;
    }
    double lowest = Double.POSITIVE_INFINITY;
    int half = Math.max(1, (int) Math.round(0.125 / trial.intervalS()));
    for (int k = half; k + half < time.length; k++) {
      if (time[k - half] > 0 && time[k + half] < cutS) {
        double three = average(volts, k - half, k + half);
        lowest = Double.isNaN(three) ? lowest : Math.min(lowest, three);
      }
    }
    return Double.isInfinite(lowest) ? Double.NaN : lowest / ratedVoltageV;
  }

  private double lastFall(double level) {
    double[] a = trial.currentA();
    double goal = level * ratedCurrentA;
    double found = Double.NaN;
    int last = -1;
    for (int k = 0; k < time.length && time[k] < cutS; k++) {
      if (Double.isNaN(a[k])) {
        continue;
      }
      if (last >= 0 && time[k] > 0 && a[last] >= goal && a[k] < goal) {
        found = between(last, k, (a[last] - goal) / (a[last] - a[k]));
      }
      last = k;
    }
    return found;
  }

  private double speedReached() {
    double @Nullable [] rpm = trial.speedRpm();
    if (rpm == null) {
      return Double.NaN;
    }
    double settled = average(rpm, cutS - 1.0, cutS - 0.02);
    double goal = 0.95 * settled;
    int last = -1;
    for (int k = 0; k < time.length && time[k] < cutS; k++) {
      if (Double.isNaN(rpm[k])) {
        continue;
      }
      if (last >= 0 && time[k] > 0 && rpm[last] < goal && rpm[k] >= goal) {
        return between(last, k, (goal - rpm[last]) / (rpm[k] - rpm[last]));
      }
      last = k;
    }
    return Double.NaN;
  }

  /** An instant between two readings; NaN when too many are missing in between to date it. */
  private double between(int before, int after, double part) {
    double width = time[after] - time[before];
    return width > LONGEST_GAP * trial.intervalS() ? Double.NaN : time[before] + width * part;
  }

  /** First time the speed is above 1.5 % and stays above for two readings. */
  private double turned() {
    double @Nullable [] rpm = trial.speedRpm();
    if (rpm == null) {
      return Double.NaN;
    }
    double goal = TURNED_SPEED * syncSpeedRpm;
    for (int k = 1; k + 2 < time.length && time[k] < cutS; k++) {
      if (time[k] > 0 && rpm[k] > goal && rpm[k + 1] > goal && rpm[k + 2] > goal) {
        double before = Math.max(0, rpm[k - 1]);
        double part = rpm[k] > before ? Math.max(0, (goal - before) / (rpm[k] - before)) : 1;
        return time[k - 1] + Math.min(1, part) * (time[k] - time[k - 1]);
      }
    }
    return Double.NaN;
  }

  private double rest(double release) {
    double @Nullable [] rpm = trial.speedRpm();
    if (rpm == null) {
      return Double.NaN;
    }
    double goal = 0.012 * syncSpeedRpm;
    for (int k = 1; k < time.length; k++) {
      if (time[k] > cutS && rpm[k] <= goal) {
        return Math.max(time[k], release);
      }
    }
    return Double.NaN;
  }

  private double squares(double until) {
    double sum = 0;
    double[] a = trial.currentA();
    double last = Double.NaN;
    double lastTime = 0;
    for (int k = 0; k < time.length; k++) {
      if (Double.isNaN(a[k]) || time[k] <= 0) {
        continue;
      }
      double square = a[k] * a[k] / ratedCurrentA / ratedCurrentA;
      double to = Math.min(until, time[k]);
      double begin = Double.isNaN(last) ? square : last;
      sum += Math.max(0, to - lastTime) * 0.5 * (begin + square);
      if (time[k] >= until) {
        break;
      }
      last = square;
      lastTime = time[k];
    }
    return sum;
  }
}
