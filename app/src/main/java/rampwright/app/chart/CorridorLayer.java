package rampwright.app.chart;

import java.awt.BasicStroke;
import java.awt.Graphics2D;
import java.awt.geom.Area;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * A corridor: the allowed area tinted, its limits drawn with short strokes on the forbidden side,
 * and whatever a curve does on that side drawn again, broad, in the colour of a missed limit.
 */
final class CorridorLayer implements Layer {
  private final LimitLine upper;
  private final LimitLine lower;
  private final List<Curve> watched;

  private CorridorLayer(LimitLine upper, LimitLine lower, List<Curve> watched) {
    this.upper = upper;
    this.lower = lower;
    this.watched = List.copyOf(watched);
  }

  /**
   * Adds the corridors of a channel to a lane.
   *
   * @param perUnit values of the lane in one unit of the channel
   * @param zeroS instant of the chart a part begins at; null when it is not known, then its
   *     corridors are left out
   * @param watched curves whose excursions are drawn
   */
  static void add(
      LaneBuilder lane,
      List<Corridor> corridors,
      Corridor.Channel channel,
      double perUnit,
      Function<Corridor.Part, @Nullable Double> zeroS,
      List<Curve> watched,
      Ink ink) {
    boolean named = false;
    for (Corridor corridor : corridors) {
      Double zero = zeroS.apply(corridor.part());
      if (corridor.channel() != channel || zero == null) {
        continue;
      }
      LimitLine upper = LimitLine.of(corridor.upper(), zero, perUnit);
      LimitLine lower = LimitLine.of(corridor.lower(), zero, perUnit);
      if (upper.isEmpty() && lower.isEmpty()) {
        continue;
      }
      for (int i = 0; i < upper.corners(); i++) {
        lane.include(upper.value(i));
      }
      lane.under(new CorridorLayer(upper, lower, watched));
      if (!named) {
        LineLook look = new LineLook(Ink.pale(ink.accent, 0.25), ink.hair(1));
        lane.legend(Lane.LegendEntry.band(look, "allowed"));
        named = true;
      }
    }
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

  /** Between the limits, and where only one of them reaches, on its good side. */
  private Area allowed(Plane plane) {
    double from = Double.POSITIVE_INFINITY;
    double to = Double.NEGATIVE_INFINITY;
    for (LimitLine limit : List.of(upper, lower)) {
      if (!limit.isEmpty()) {
        from = Math.min(from, plane.x(limit.timeS(0)));
        to = Math.max(to, plane.x(limit.timeS(limit.corners() - 1)));
      }
    }
    if (!(from < to)) {
      return new Area();
    }
    double bottom = plane.values().min() < 0 ? plane.y(0) : plane.bottom();
    Area area =
        new Area(new Rectangle2D.Double(from, plane.top(), to - from, bottom - plane.top()));
    if (!upper.isEmpty()) {
      area.subtract(new Area(upper.beyond(plane, true)));
    }
    if (!lower.isEmpty()) {
      area.subtract(new Area(lower.beyond(plane, false)));
    }
    return area;
  }

  private void excursion(Graphics2D g, Plane plane, Ink ink, LimitLine limit, boolean above) {
    Layers.clipped(
        g,
        limit.beyond(plane, above),
        () -> {
          g.setColor(Ink.pale(ink.missed, 0.38));
          g.setStroke(
              new BasicStroke(
                  (float) (0.55 * ink.unit), BasicStroke.CAP_BUTT, BasicStroke.JOIN_BEVEL));
          for (Curve curve : watched) {
            g.draw(Polyline.of(curve, plane, ink.unit / 4).line());
          }
        });
  }

  private static void limit(Graphics2D g, Plane plane, Ink ink, LimitLine limit, boolean above) {
    g.setColor(ink.accent);
    g.setStroke(ink.hair(1.3));
    g.draw(limit.path(plane));
    Path2D.Double strokes = new Path2D.Double();
    double step = 0.85 * ink.unit;
    double reach = 0.4 * ink.unit;
    double side = above ? 1 : -1;
    double carried = 0.5 * step;
    for (int i = 1; i < limit.corners(); i++) {
      double x0 = plane.x(limit.timeS(i - 1));
      double y0 = plane.y(limit.value(i - 1));
      double dx = plane.x(limit.timeS(i)) - x0;
      double dy = plane.y(limit.value(i)) - y0;
      double length = Math.hypot(dx, dy);
      double at = carried;
      for (; at < length; at += step) {
        double x = x0 + dx * at / length;
        double y = y0 + dy * at / length;
        double toX = x + reach * (dx + side * dy) / length;
        double toY = y + reach * (dy - side * dx) / length;
        strokes.append(new Line2D.Double(x, y, toX, toY), false);
      }
      carried = at - length;
    }
    g.setStroke(ink.hair(0.8));
    g.draw(strokes);
  }
}
