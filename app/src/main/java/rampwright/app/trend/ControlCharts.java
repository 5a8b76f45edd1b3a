package rampwright.app.trend;

import java.util.Arrays;

/**
 * The classic charts of one figure, in standard deviations of one start about its baseline. They
 * stand beside the trend's own word as evidence of another kind.
 *
 * @param ewma exponentially weighted average after each start
 * @param ewmaLimit half width of its limits
 * @param up upper cumulative sum after each start
 * @param down lower one, positive
 * @param cusumLimit sum from which either alarms
 * @param values each start
 * @param individuals limits of single starts, by the moving ranges of the baseline's
 */
@SuppressWarnings("ArrayRecordComponent")
public record ControlCharts(
    double[] ewma,
    double ewmaLimit,
    double[] up,
    double[] down,
    double cusumLimit,
    double[] values,
    Individuals individuals) {
  /** Weight of the newest start, for shifts of about one standard deviation (Montgomery, 9.2). */
  static final double LAMBDA = 0.1;

  /** Reach of the limits for 500 starts between false alarms (Lucas and Saccucci 1990, memory). */
  static final double REACH = 2.814;

  /** Half the shift looked for, and the sum that alarms, for 465 starts (Montgomery, 9.1). */
  static final double ALLOWANCE = 0.5;

  static final double DECISION = 5;

  /**
   * Mean number of starts until a false alarm of the average, by {@link RunLength}; for a known
   * baseline and normal, independent starts. A baseline taken from few starts alarms more often.
   */
  public static final int EWMA_RUN_LENGTH = 500;

  /**
   * Mean number of starts until a single one is out by chance, for normal values: 1 / 0.0027. NIST,
   * as above; heavier tails alarm more often.
   */
  public static final int INDIVIDUALS_RUN_LENGTH = 370;

  /** Likewise of the sums. */
  public static final int CUSUM_RUN_LENGTH = 465;

  /** Of a figure that has a baseline; empty charts where it has none. */
  public static ControlCharts of(FigureTrend figure) {
    double centre = figure.baseline().map(FigureTrend.Baseline::median).orElse(Double.NaN);
    double sd = figure.scatter();
    if (!(sd > 0) || Double.isNaN(centre)) {
      return new ControlCharts(
          new double[0],
          0,
          new double[0],
          new double[0],
          DECISION,
          new double[0],
          new Individuals(0, 0));
    }
    double[] z =
        figure.corrected().stream().mapToDouble(point -> (point.value() - centre) / sd).toArray();
    int baseline = figure.baseline().map(FigureTrend.Baseline::n).orElse(z.length);
    Ewma average = new Ewma(LAMBDA, 0, 1, REACH);
    Cusum sums = new Cusum(0, ALLOWANCE, DECISION);
    return new ControlCharts(
        average.of(z),
        average.halfWidth(),
        sums.upper(z),
        sums.lower(z),
        sums.decision(),
        z,
        Individuals.of(Arrays.copyOf(z, Math.min(z.length, baseline))));
  }

  /** Index of the first start at which the average is out; -1: none. */
  public int firstEwmaAlarm() {
    for (int i = 0; i < ewma.length; i++) {
      if (Math.abs(ewma[i]) > ewmaLimit) {
        return i;
      }
    }
    return -1;
  }

  /** Index of the first start at which a sum is out; -1: none. */
  public int firstCusumAlarm() {
    for (int i = 0; i < up.length; i++) {
      if (Math.max(up[i], down[i]) > cusumLimit) {
        return i;
      }
    }
    return -1;
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof ControlCharts that
        && Arrays.equals(ewma, that.ewma)
        && Arrays.equals(up, that.up)
        && Arrays.equals(down, that.down)
        && Arrays.equals(values, that.values);
  }

  @Override
  public int hashCode() {
    return Arrays.hashCode(ewma);
  }
}
