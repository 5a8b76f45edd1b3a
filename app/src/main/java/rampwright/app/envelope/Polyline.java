package rampwright.app.envelope;

import java.util.List;

/**
 * A bound that changes with time: straight lines between points. Two points at one time make a
 * step; at that instant the wider of the two values holds.
 *
 * @param points at least two, times not decreasing; empty for no bound
 */
public record Polyline(List<Point> points) {
  /** No bound. */
  public static final Polyline NONE = new Polyline(List.of());

  /** A point of the bound: time from the corridor's origin in s, value in the channel's unit. */
  public record Point(double timeS, double value) {}

  public Polyline {
    points = List.copyOf(points);
    if (points.size() == 1) {
      throw new IllegalArgumentException("a bound has at least two points");
    }
    for (int i = 1; i < points.size(); i++) {
      if (points.get(i).timeS() < points.get(i - 1).timeS()) {
        throw new IllegalArgumentException(
            "times of a bound must not decrease: "
                + points.get(i).timeS()
                + " s after "
                + points.get(i - 1).timeS()
                + " s");
      }
    }
  }

  public boolean isEmpty() {
    return points.isEmpty();
  }

  /** Time of the first point, s. */
  public double fromS() {
    return points.get(0).timeS();
  }

  /** Time of the last point, s. */
  public double toS() {
    return points.get(points.size() - 1).timeS();
  }

  /** Largest magnitude of the bound: what margins are percent of. */
  public double scale() {
    return points.stream().mapToDouble(point -> Math.abs(point.value())).max().orElse(0);
  }

  /**
   * The bound at a time within [{@link #fromS}, {@link #toS}]; NaN outside.
   *
   * @param upper at a step: true for the larger of the values there, false for the smaller
   */
  public double at(double timeS, boolean upper) {
    double best = Double.NaN;
    for (int i = 1; i < points.size(); i++) {
      Point a = points.get(i - 1);
      Point b = points.get(i);
      if (timeS < a.timeS() || timeS > b.timeS()) {
        continue;
      }
      double value =
          b.timeS() > a.timeS()
              ? a.value() + (b.value() - a.value()) * (timeS - a.timeS()) / (b.timeS() - a.timeS())
              : (upper ? Math.max(a.value(), b.value()) : Math.min(a.value(), b.value()));
      if (Double.isNaN(best)) {
        best = value;
      } else {
        best = upper ? Math.max(best, value) : Math.min(best, value);
      }
    }
    return best;
  }
}
