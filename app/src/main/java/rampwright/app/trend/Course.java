package rampwright.app.trend;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** The course of a figure in a few values, for a line as small as a word. */
public final class Course {
  private Course() {}

  /**
   * Medians of spans of equal time, of the present settings, in usual conditions.
   *
   * @param spans how many
   * @return one each; NaN where a span has no start
   */
  public static double[] of(FigureTrend figure, int spans) {
    double[] medians = new double[spans];
    Arrays.fill(medians, Double.NaN);
    List<FigureTrend.Point> points = figure.corrected();
    if (points.isEmpty()) {
      return medians;
    }
    Instant first = points.get(0).at();
    double whole = seconds(first, points.get(points.size() - 1).at());
    List<List<Double>> values = new ArrayList<>();
    for (int i = 0; i < spans; i++) {
      values.add(new ArrayList<>());
    }
    for (FigureTrend.Point point : points) {
      double share = whole > 0 ? seconds(first, point.at()) / whole : 0;
      values.get((int) Math.min(spans - 1.0, Math.floor(share * spans))).add(point.value());
    }
    for (int i = 0; i < spans; i++) {
      medians[i] =
          RobustScale.median(values.get(i).stream().mapToDouble(Double::doubleValue).toArray());
    }
    return medians;
  }

  private static double seconds(Instant from, Instant to) {
    return Duration.between(from, to).toMillis() / 1000.0;
  }
}
