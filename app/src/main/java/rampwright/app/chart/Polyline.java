package rampwright.app.chart;

import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.PathIterator;

/**
 * A curve as a path: every sample where they are few, the {@link MinMaxColumns} of each pixel
 * column where they are many. Bad samples break it; a break in time longer than three usual
 * intervals is spanned by a separate path, to be drawn faint. A sample with no neighbour becomes a
 * dot.
 */
final class Polyline {
  private static final int RAW_SAMPLES_PER_COLUMN = 2;

  private final Path2D.Double line = new Path2D.Double();
  private final Path2D.Double bridges = new Path2D.Double();
  private final Path2D.Double dots = new Path2D.Double();
  private final double dotRadius;
  private double lastX = Double.NaN;
  private double lastY = Double.NaN;
  private int run;

  private Polyline(double dotRadius) {
    this.dotRadius = dotRadius;
  }

  static Polyline of(Curve curve, Plane plane, double dotRadius) {
    Polyline result = new Polyline(dotRadius);
    int from = Math.max(0, curve.firstAtOrAfter(plane.time().fromS()) - 1);
    int to = Math.min(curve.time().size(), curve.firstAtOrAfter(plane.time().toS()) + 1);
    if (to - from <= (long) RAW_SAMPLES_PER_COLUMN * plane.columns()) {
      result.samples(curve, plane, from, to);
    } else {
      result.columns(curve.columns(plane.time(), plane.columns()), plane);
    }
    result.lift();
    return result;
  }

  private void samples(Curve curve, Plane plane, int from, int to) {
    double longestS = curve.gapS();
    double previousS = Double.NaN;
    for (int i = from; i < to; i++) {
      double value = curve.values().at(i);
      if (!Double.isFinite(value)) {
        lift();
        continue;
      }
      double timeS = curve.chartS(i);
      double x = plane.x(timeS);
      double y = plane.y(value);
      if (timeS - previousS > longestS && !Double.isNaN(lastX)) {
        double fromX = lastX;
        double fromY = lastY;
        lift();
        bridges.moveTo(fromX, fromY);
        bridges.lineTo(x, y);
      }
      add(x, y);
      previousS = timeS;
    }
  }

  private void columns(MinMaxColumns columns, Plane plane) {
    for (int k = 0; k < columns.columns(); k++) {
      if (columns.isGap(k)) {
        lift();
      } else if (columns.has(k)) {
        double x = plane.x(columns.middleS(k));
        add(x, plane.y(columns.first(k)));
        boolean rising = columns.minComesFirst(k);
        add(x, plane.y(rising ? columns.min(k) : columns.max(k)));
        add(x, plane.y(rising ? columns.max(k) : columns.min(k)));
        add(x, plane.y(columns.last(k)));
      }
    }
  }

  private void add(double x, double y) {
    if (x == lastX && y == lastY) {
      return;
    }
    if (run == 0) {
      line.moveTo(x, y);
    } else {
      line.lineTo(x, y);
    }
    run++;
    lastX = x;
    lastY = y;
  }

  private void lift() {
    if (run == 1) {
      dots.append(
          new Ellipse2D.Double(lastX - dotRadius, lastY - dotRadius, 2 * dotRadius, 2 * dotRadius),
          false);
    }
    run = 0;
    lastX = Double.NaN;
    lastY = Double.NaN;
  }

  Path2D line() {
    return line;
  }

  /** The area between the line and a level, in drawing units. */
  Path2D downTo(double y) {
    Path2D.Double area = new Path2D.Double();
    double[] point = new double[6];
    double lastPointX = Double.NaN;
    for (PathIterator it = line.getPathIterator(null); !it.isDone(); it.next()) {
      if (it.currentSegment(point) == PathIterator.SEG_MOVETO) {
        close(area, lastPointX, y);
        area.moveTo(point[0], y);
      }
      area.lineTo(point[0], point[1]);
      lastPointX = point[0];
    }
    close(area, lastPointX, y);
    return area;
  }

  private static void close(Path2D area, double x, double y) {
    if (!Double.isNaN(x)) {
      area.lineTo(x, y);
      area.closePath();
    }
  }

  Path2D bridges() {
    return bridges;
  }

  Path2D dots() {
    return dots;
  }
}
