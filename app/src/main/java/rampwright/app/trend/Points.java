package rampwright.app.trend;

import java.time.Instant;
import java.util.AbstractList;
import java.util.Arrays;
import java.util.List;
import java.util.RandomAccess;

/**
 * Starts of a figure as they are shown, kept as numbers: a fleet has as many as it has starts times
 * figures. The arrays are those of whoever makes it, who lets go of them.
 */
final class Points extends AbstractList<FigureTrend.Point> implements RandomAccess {
  private final List<Instant> at;
  private final double[] raw;
  private final double[] values;
  private final double[] usual;

  private Points(List<Instant> at, double[] raw, double[] values, double[] usual) {
    this.at = at;
    this.raw = raw;
    this.values = values;
    this.usual = usual;
  }

  /**
   * Of a model.
   *
   * @param at of each start
   * @param raw as measured
   * @param values in usual conditions
   * @param usual the model's value there
   */
  static List<FigureTrend.Point> of(
      List<Instant> at, double[] raw, double[] values, double[] usual) {
    return new Points(at, raw, values, usual);
  }

  /** Starts as measured, without a model. */
  static List<FigureTrend.Point> measured(FigureStarts starts) {
    return new Points(starts.series().at(), starts.values(), starts.values(), new double[0]);
  }

  /** The latest of them, holding on to no others. */
  Points latest(int most) {
    int from = Math.max(0, raw.length - most);
    return new Points(
        List.copyOf(at.subList(from, at.size())),
        Arrays.copyOfRange(raw, from, raw.length),
        Arrays.copyOfRange(values, from, values.length),
        usual.length == 0 ? usual : Arrays.copyOfRange(usual, from, usual.length));
  }

  @Override
  public FigureTrend.Point get(int i) {
    return new FigureTrend.Point(
        at.get(i), raw[i], values[i], usual.length == 0 ? Double.NaN : usual[i]);
  }

  @Override
  public int size() {
    return raw.length;
  }
}
