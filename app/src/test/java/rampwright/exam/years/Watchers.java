package rampwright.exam.years;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import rampwright.app.trend.FigureTrend;
import rampwright.app.trend.LoggedStart;
import rampwright.app.trend.TrendQuestion;
import rampwright.app.trend.TrendState;
import rampwright.app.trend.Trends;

/**
 * Who looks at the record after every start, each with a memory of its own: the trend's word, the
 * alert made of it, and a fixed threshold: three starts in a row more than 10 % from the median of
 * the first thirty.
 */
final class Watchers {
  static final List<String> NAMES =
      List.of(
          "said by the trend, each time it comes up",
          "said by the trend, once until 8 starts without",
          "alert, once until 8 starts without",
          "the same from a chance of 0.7 on",
          "the same from a chance of 0.75 on",
          "the same from a chance of 0.8 on",
          "the same from a chance of 0.85 on",
          "the same from a chance of 0.9 on",
          "fixed threshold, each time it comes up");

  /** Chances an alert might be raised from, to show what each costs. */
  private static final double[] MIGHT = {0.7, 0.75, 0.8, 0.85, 0.9};

  static final int THRESHOLD_BASE = 30;
  private static final double THRESHOLD = 0.1;
  private static final int IN_A_ROW = 3;
  private static final double SECONDS_PER_YEAR = 365.25 * 86_400;

  /** Starts without, until the next is counted as another. */
  private static final int QUIET = 8;

  private final boolean[] on = new boolean[NAMES.size()];
  private final int[] quiet = new int[NAMES.size()];
  private final double[] alarms = new double[NAMES.size()];

  static FigureTrend trend(List<LoggedStart> starts, double limit) {
    return Trends.of(
        new TrendQuestion(
            "start_time_s",
            starts,
            List.of(),
            Double.isNaN(limit) ? OptionalDouble.empty() : OptionalDouble.of(limit),
            OptionalDouble.empty()));
  }

  static double yearsOf(List<LoggedStart> starts) {
    return YearsExam.lengthOf(starts).toSeconds() / SECONDS_PER_YEAR;
  }

  /**
   * Chance for one asset of the exam. Neighbouring seeds of {@link Random} begin alike; these are
   * stirred first (the finaliser of splitmix64).
   */
  static Random chance(long seed, int kind, int asset) {
    return new Random(stirred(seed, kind, asset));
  }

  static long stirred(long seed, int kind, int asset) {
    long z = seed * 0x9E3779B97F4A7C15L + 0xD1B54A32D192ED03L * (1000L * asset + kind);
    z = (z ^ (z >>> 30)) * 0xBF58476D1CE4E5B9L;
    z = (z ^ (z >>> 27)) * 0x94D049BB133111EBL;
    return z ^ (z >>> 31);
  }

  /** What each says of the record so far. */
  boolean[] see(List<LoggedStart> starts) {
    FigureTrend trend = trend(starts, Double.NaN);
    boolean changed = trend.state() == TrendState.STEP || trend.state() == TrendState.DRIFT;
    boolean[] now = new boolean[NAMES.size()];
    int[] forgets = new int[now.length];
    Arrays.fill(forgets, QUIET);
    now[0] = changed;
    forgets[0] = 1;
    now[1] = changed;
    now[2] = changed && trend.chance() >= FigureTrend.ALERT_FROM;
    for (int i = 0; i < MIGHT.length; i++) {
      now[3 + i] = changed && trend.chance() >= MIGHT[i];
    }
    now[now.length - 1] = thresholdSays(starts);
    forgets[now.length - 1] = 1;
    for (int i = 0; i < now.length; i++) {
      quiet[i] = now[i] ? 0 : quiet[i] + 1;
      if (now[i] && !on[i]) {
        alarms[i]++;
        on[i] = true;
      } else if (quiet[i] >= forgets[i]) {
        on[i] = false;
      }
    }
    return now;
  }

  double[] alarms() {
    return alarms.clone();
  }

  private static boolean thresholdSays(List<LoggedStart> starts) {
    if (starts.size() < THRESHOLD_BASE + IN_A_ROW) {
      return false;
    }
    List<Double> first = new ArrayList<>();
    starts.subList(0, THRESHOLD_BASE).forEach(start -> first.add(start.value()));
    Collections.sort(first);
    double base = first.get(THRESHOLD_BASE / 2);
    int side = 0;
    for (LoggedStart start : starts.subList(starts.size() - IN_A_ROW, starts.size())) {
      double away = start.value() / base - 1;
      side += Math.abs(away) > THRESHOLD ? (int) Math.signum(away) : 0;
    }
    return Math.abs(side) == IN_A_ROW;
  }
}
