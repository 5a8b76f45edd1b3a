package rampwright.app.trend;

import java.util.AbstractList;
import java.util.List;
import java.util.RandomAccess;

/** Starts with one figure, by column. */
final class FigureStarts extends AbstractList<LoggedStart> implements RandomAccess {
  private final StartSeries series;
  private final double[] values;

  FigureStarts(StartSeries series, double[] values) {
    if (values.length != series.size()) {
      throw new IllegalArgumentException(values.length + " values for " + series.size());
    }
    this.series = series;
    this.values = values;
  }

  /** The same starts by column. */
  static FigureStarts of(List<LoggedStart> starts) {
    if (starts instanceof FigureStarts columns) {
      return columns;
    }
    return new FigureStarts(
        StartSeries.of(
            starts.stream().map(LoggedStart::at).toList(),
            starts.stream().map(LoggedStart::settings).toList(),
            starts.stream().map(LoggedStart::counts).toList(),
            starts.stream().mapToDouble(LoggedStart::voltageBeforeV).toArray()),
        starts.stream().mapToDouble(LoggedStart::value).toArray());
  }

  StartSeries series() {
    return series;
  }

  /** One of each start; not to be written to. */
  double[] values() {
    return values;
  }

  @Override
  public LoggedStart get(int i) {
    return new LoggedStart(
        series.at(i), series.settings(i), values[i], series.voltageBeforeV(i), series.counts(i));
  }

  @Override
  public int size() {
    return values.length;
  }
}
