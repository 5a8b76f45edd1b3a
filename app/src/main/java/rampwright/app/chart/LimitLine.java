package rampwright.app.chart;

import java.awt.geom.Path2D;
import java.util.List;

/** One limit of a corridor, brought to a lane's unit and the chart's time. */
final class LimitLine {
  private final double[] timeS;
  private final double[] value;

  private LimitLine(double[] timeS, double[] value) {
    this.timeS = timeS;
    this.value = value;
  }

  /**
   * A limit through corners; corners that are not numbers are left out.
   *
   * @param zeroS instant of the chart the corners' times count from, s
   * @param perUnit values of the lane in one unit of the corners
   */
  static LimitLine of(List<Corridor.Corner> corners, double zeroS, double perUnit) {
    List<Corridor.Corner> sound =
        corners.stream()
            .filter(c -> Double.isFinite(c.timeS()) && Double.isFinite(c.value()))
            .toList();
    return new LimitLine(
        sound.stream().mapToDouble(c -> zeroS + c.timeS()).toArray(),
        sound.stream().mapToDouble(c -> perUnit * c.value()).toArray());
  }

  /** Whether there are not even two corners. */
  boolean isEmpty() {
    return timeS.length < 2;
  }

  int corners() {
    return timeS.length;
  }

  double timeS(int i) {
    return timeS[i];
  }

  double value(int i) {
    return value[i];
  }

  Path2D.Double path(Plane plane) {
    Path2D.Double path = new Path2D.Double();
    for (int i = 0; i < timeS.length; i++) {
      if (i == 0) {
        path.moveTo(plane.x(timeS[i]), plane.y(value[i]));
      } else {
        path.lineTo(plane.x(timeS[i]), plane.y(value[i]));
      }
    }
    return path;
  }

  /** The forbidden side, up or down to beyond the edge of the plane. */
  Path2D.Double beyond(Plane plane, boolean above) {
    Path2D.Double path = path(plane);
    double edge = above ? plane.top() - 4 : plane.bottom() + 4;
    path.lineTo(plane.x(timeS[timeS.length - 1]), edge);
    path.lineTo(plane.x(timeS[0]), edge);
    path.closePath();
    return path;
  }
}
