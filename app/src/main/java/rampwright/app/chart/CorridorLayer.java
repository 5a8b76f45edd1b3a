package rampwright.app.chart;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.util.List;
import rampwright.app.chart.Layers.LimitLine;

/**
 * A corridor: the allowed area tinted, its limits drawn with short strokes on the forbidden side,
 * and whatever a curve does on that side drawn again, broad, in the colour of a missed limit.
 */
final class CorridorLayer implements Layer {
  private final LimitLine upper;
  private final LimitLine lower;
  private final List<Curve> watched;

  CorridorLayer(LimitLine upper, LimitLine lower, List<Curve> watched) {
    this.upper = upper;
    this.lower = lower;
    this.watched = List.copyOf(watched);
  }

  double highest() {
    double highest = Double.NEGATIVE_INFINITY;
    for (double value : upper.value()) {
      highest = Math.max(highest, value);
    }
    return highest;
  }

  @Override
  public void paint(Graphics2D g, Plane plane, Ink ink) {
    g.setColor(Ink.pale(ink.accent, 0.085));
    g.fill(allowed(plane));
    for (boolean above : new boolean[] {true, false}) {
      LimitLine limit = above ? upper : lower;
      if (!limit.isEmpty()) {
        excursion(g, plane, ink, limit, above);
        limit(g, plane, ink, limit, above);
      }
    }
  }

  private Path2D.Double allowed(Plane plane) {
    LimitLine first = upper.isEmpty() ? lower : upper;
    Path2D.Double area = new Path2D.Double();
    if (first.isEmpty()) {
      return area;
    }
    area.append(first.path(plane), false);
    if (upper.isEmpty() || lower.isEmpty()) {
      double edge = upper.isEmpty() ? plane.top() - 4 : plane.bottom() + 4;
      area.lineTo(plane.x(first.timeS()[first.timeS().length - 1]), edge);
      area.lineTo(plane.x(first.timeS()[0]), edge);
    } else {
      for (int i = lower.timeS().length - 1; i >= 0; i--) {
        area.lineTo(plane.x(lower.timeS()[i]), plane.y(lower.value()[i]));
      }
    }
    area.closePath();
    return area;
  }

  private void excursion(Graphics2D g, Plane plane, Ink ink, LimitLine limit, boolean above) {
    Graphics2D part = Layers.part(g);
    part.clip(limit.beyond(plane, above));
    Color colour = Ink.pale(ink.missed, 0.38);
    for (Curve curve : watched) {
      part.setColor(colour);
      part.setStroke(
          new java.awt.BasicStroke(
              (float) (0.55 * ink.unit),
              java.awt.BasicStroke.CAP_BUTT,
              java.awt.BasicStroke.JOIN_BEVEL));
      part.draw(Polyline.of(curve, plane, ink.unit / 4).line());
    }
    part.dispose();
  }

  private static void limit(Graphics2D g, Plane plane, Ink ink, LimitLine limit, boolean above) {
    g.setColor(ink.accent);
    g.setStroke(ink.hair(1.3));
    g.draw(limit.path(plane));
    Path2D.Double strokes = new Path2D.Double();
    double step = 0.8 * ink.unit;
    double reach = 0.42 * ink.unit * (above ? -1 : 1);
    for (int i = 1; i < limit.timeS().length; i++) {
      double x0 = plane.x(limit.timeS()[i - 1]);
      double x1 = plane.x(limit.timeS()[i]);
      double y0 = plane.y(limit.value()[i - 1]);
      double y1 = plane.y(limit.value()[i]);
      double from = Math.max(x0, plane.left());
      double to = Math.min(x1, plane.right());
      // From a multiple of the step on, so that strokes of neighbouring pieces keep their rhythm.
      for (double x = Math.ceil(from / step) * step; x < to; x += step) {
        double y = y0 + (y1 - y0) * (x - x0) / (x1 - x0);
        strokes.append(new Line2D.Double(x, y, x + 0.42 * ink.unit, y + reach), false);
      }
    }
    g.setStroke(ink.hair(0.8));
    g.draw(strokes);
  }
}
