package rampwright.app.trend;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/**
 * What legitimately moves a start, as regressors: the supply's voltage before it, how warm the
 * motor still was from the start before, the season. Each has a prior that says how much it may
 * move a figure when the starts themselves cannot tell yet, so that a young record is not sure too
 * soon.
 */
final class Conditions {
  /**
   * Prior standard deviation of the exponent of voltage. Torque goes with the square of voltage and
   * the start time of a torque left over the load faster still: common practice, no source.
   */
  private static final double VOLTAGE_EXPONENT = 3;

  /** Of what a start right after another differs by, relative: common practice, no source. */
  private static final double WARM = 0.1;

  /** Time in which the warmth of a start fades, h; a standing motor's order: common practice. */
  private static final double FADES_H = 1.5;

  /** Of each of the two parts of the yearly wave, relative: common practice, no source. */
  private static final double SEASON = 0.02;

  private static final double LEVEL = 10;

  /** Spread of the voltage below which it tells nothing, relative. */
  private static final double STILL = 1e-4;

  private final double[][] columns;
  private final double[][] gram;
  private final double[] priors;
  private final List<String> names;

  private Conditions(List<double[]> columns, List<Double> priors, List<String> names) {
    this.columns = columns.toArray(new double[0][]);
    this.gram = WeightedFit.gram(this.columns);
    this.priors = priors.stream().mapToDouble(Double::doubleValue).toArray();
    this.names = names.stream().skip(1).distinct().toList();
  }

  /** Of these starts, in order of time. */
  static Conditions of(StartSeries starts, double[] timeYears) {
    int n = starts.size();
    List<double[]> columns = new ArrayList<>();
    List<Double> priors = new ArrayList<>();
    List<String> names = new ArrayList<>();
    double[] level = new double[n];
    Arrays.fill(level, 1);
    columns.add(level);
    priors.add(LEVEL);
    names.add("level");
    double[] voltage = voltage(starts);
    if (voltage.length > 0) {
      columns.add(voltage);
      priors.add(VOLTAGE_EXPONENT);
      names.add("supply voltage");
    }
    double[] warm = warm(starts);
    if (varies(warm)) {
      columns.add(warm);
      priors.add(WARM);
      names.add("warm restart");
    }
    double[] cosine = new double[n];
    double[] sine = new double[n];
    for (int i = 0; i < n; i++) {
      cosine[i] = Math.cos(2 * Math.PI * timeYears[i]);
      sine[i] = Math.sin(2 * Math.PI * timeYears[i]);
    }
    columns.add(cosine);
    columns.add(sine);
    priors.add(SEASON);
    priors.add(SEASON);
    names.add("season");
    names.add("season");
    return new Conditions(columns, priors, names);
  }

  /** Relative deviation from the median; 0 where a start has none; nothing where none varies. */
  private static double[] voltage(StartSeries starts) {
    double[] known =
        IntStream.range(0, starts.size())
            .mapToDouble(starts::voltageBeforeV)
            .filter(v -> Double.isFinite(v) && v > 0)
            .toArray();
    if (known.length < Math.max(3, starts.size() / 2)) {
      return new double[0];
    }
    double middle = RobustScale.median(known);
    if (RobustScale.mad(known) < STILL * middle) {
      return new double[0];
    }
    double[] column = new double[starts.size()];
    for (int i = 0; i < column.length; i++) {
      double v = starts.voltageBeforeV(i);
      column[i] = Double.isFinite(v) && v > 0 ? Math.log(v / middle) : 0;
    }
    return column;
  }

  private static double[] warm(StartSeries starts) {
    double[] column = new double[starts.size()];
    for (int i = 1; i < column.length; i++) {
      double restH = (starts.atMillis(i) - starts.atMillis(i - 1)) / 3.6e6;
      column[i] = Math.exp(-restH / FADES_H);
    }
    return column;
  }

  private static boolean varies(double[] column) {
    int warmStarts = 0;
    for (double value : column) {
      warmStarts += value > 0.1 ? 1 : 0;
    }
    return warmStarts > 0;
  }

  double[][] columns() {
    return columns;
  }

  /** Products of the columns with each other: the same for all figures of the same starts. */
  double[][] gram() {
    return gram;
  }

  double[] priors() {
    return priors;
  }

  /** What may move a start, each once; the level is none. */
  List<String> names() {
    return names;
  }
}
