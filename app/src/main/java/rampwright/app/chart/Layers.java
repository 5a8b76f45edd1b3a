package rampwright.app.chart;

import java.awt.Graphics2D;
import java.awt.Shape;
import java.awt.geom.Area;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;

/** The kinds of layers charts are made of. */
final class Layers {
  private Layers() {}

  /** A curve as a line. */
  static Layer line(Curve curve, LineLook look) {
    return (g, plane, ink) -> {
      Polyline path = Polyline.of(curve, plane, ink.unit / 6);
      g.setColor(look.colour());
      g.setStroke(look.stroke());
      g.draw(path.line());
      g.fill(path.dots());
      g.setColor(Ink.pale(look.colour(), 0.45));
      g.setStroke(ink.hair(0.8));
      g.draw(path.bridges());
    };
  }

  /** Everything a waveform reaches, as a pale band. */
  static Layer band(MinMaxColumns columns, java.awt.Color colour, double opacity) {
    return (g, plane, ink) -> {
      Path2D.Double area = new Path2D.Double();
      int from = 0;
      while (from < columns.columns()) {
        if (!columns.has(from)) {
          from++;
          continue;
        }
        int to = from;
        while (to < columns.columns() && !columns.isGap(to)) {
          to++;
        }
        ring(columns, plane, from, to, area);
        from = to;
      }
      g.setColor(Ink.pale(colour, opacity));
      g.fill(area);
    };
  }

  private static void ring(
      MinMaxColumns columns, Plane plane, int from, int to, Path2D.Double area) {
    area.moveTo(plane.x(columns.middleS(from)), plane.y(columns.max(from)));
    for (int k = from + 1; k < to; k++) {
      if (columns.has(k)) {
        area.lineTo(plane.x(columns.middleS(k)), plane.y(columns.max(k)));
      }
    }
    for (int k = to - 1; k >= from; k--) {
      if (columns.has(k)) {
        // Half a unit keeps a band of constant value visible.
        area.lineTo(plane.x(columns.middleS(k)), plane.y(columns.min(k)) + 0.5);
      }
    }
    area.closePath();
  }

  /** The area between a curve and zero, in one colour above and another below. */
  static Layer signed(Curve curve, java.awt.Color above, java.awt.Color below) {
    return (g, plane, ink) -> {
      double zero = plane.y(0);
      Path2D area = Polyline.of(curve, plane, 0).downTo(zero);
      double width = plane.width();
      Shape upper = new Rectangle2D.Double(plane.left(), plane.top(), width, zero - plane.top());
      Shape lower = new Rectangle2D.Double(plane.left(), zero, width, plane.bottom() - zero);
      g.setColor(above);
      clipped(g, upper, () -> g.fill(area));
      g.setColor(below);
      clipped(g, lower, () -> g.fill(area));
    };
  }

  /** The area between two curves given at the same times. */
  static Layer between(
      double[] timeS, double[] low, double[] high, java.awt.Color colour, double opacity) {
    return (g, plane, ink) -> {
      Path2D.Double area = new Path2D.Double();
      int i = 0;
      while (i < timeS.length) {
        int from = i;
        while (i < timeS.length && Double.isFinite(low[i]) && Double.isFinite(high[i])) {
          i++;
        }
        if (i - from > 1) {
          area.moveTo(plane.x(timeS[from]), plane.y(high[from]));
          for (int k = from + 1; k < i; k++) {
            area.lineTo(plane.x(timeS[k]), plane.y(high[k]));
          }
          for (int k = i - 1; k >= from; k--) {
            area.lineTo(plane.x(timeS[k]), plane.y(low[k]));
          }
          area.closePath();
        }
        i++;
      }
      g.setColor(Ink.pale(colour, opacity));
      g.fill(area);
    };
  }

  /** A level from one instant to another with words at one of its ends. */
  static Layer level(double value, Span part, String word, boolean atTheLeft, LineLook look) {
    return level(value, part, word, atTheLeft, true, look);
  }

  /** A level with words below its left end. */
  static Layer levelNamedBelow(double value, Span part, String word, LineLook look) {
    return level(value, part, word, true, false, look);
  }

  private static Layer level(
      double value, Span part, String word, boolean atTheLeft, boolean wantAbove, LineLook look) {
    return (g, plane, ink) -> {
      double y = plane.y(value);
      double from = Math.max(plane.left(), plane.x(part.fromS()));
      double to = Math.min(plane.right(), plane.x(part.toS()));
      if (to <= from) {
        return;
      }
      g.setColor(look.colour());
      g.setStroke(look.stroke());
      g.draw(new Line2D.Double(from, y, to, y));
      var font = ink.plain(0.85);
      String text = Ink.fit(word, font, to - from);
      boolean above = wantAbove && y - plane.top() > 1.4 * ink.unit;
      Ink.write(
          g,
          text,
          font,
          ink.muted,
          atTheLeft ? from + 0.4 * ink.unit : to - Ink.width(text, font) - 0.3 * ink.unit,
          above ? y - 0.35 * ink.unit : y + ink.unit);
    };
  }

  /** A stretch of time shaded over the full height. */
  static Layer stretch(Span part, java.awt.Color colour, double opacity) {
    return (g, plane, ink) -> {
      double from = Math.max(plane.left(), plane.x(part.fromS()));
      double to = Math.min(plane.right(), plane.x(part.toS()));
      if (to > from) {
        g.setColor(Ink.pale(colour, opacity));
        g.fill(new Rectangle2D.Double(from, plane.top(), to - from, plane.height()));
      }
    };
  }

  /** A ringed point with words beside it. */
  static Layer point(double timeS, double value, String words) {
    return (g, plane, ink) -> {
      double x = plane.x(timeS);
      double y = plane.y(value);
      double r = 0.38 * ink.unit;
      var ring = new java.awt.geom.Ellipse2D.Double(x - r, y - r, 2 * r, 2 * r);
      g.setColor(ink.paper);
      g.fill(ring);
      g.setColor(ink.text);
      g.setStroke(ink.hair(1.6));
      g.draw(ring);
      var font = ink.bold(0.92);
      double w = Ink.width(words, font);
      boolean rightward = x + w + 1.6 * ink.unit < plane.right();
      double tx = rightward ? x + 0.9 * ink.unit : x - w - 0.9 * ink.unit;
      double ty = Math.min(plane.bottom() - 0.5 * ink.unit, y + 1.75 * ink.unit);
      g.setColor(Ink.pale(ink.paper, 0.95));
      g.fill(
          new Rectangle2D.Double(
              tx - 0.2 * ink.unit, ty - ink.unit, w + 0.4 * ink.unit, 1.35 * ink.unit));
      Ink.write(g, words, font, ink.text, tx, ty);
    };
  }

  /**
   * Draws something within a shape, and leaves the graphics as it was. Graphics are never copied
   * for this: the vector library forgets to leave a copy's clip when the copy is disposed of.
   */
  static void clipped(Graphics2D g, Shape shape, Runnable drawing) {
    Shape before = g.getClip();
    if (before == null) {
      g.setClip(shape);
    } else {
      Area both = new Area(before);
      both.intersect(new Area(shape));
      g.setClip(both);
    }
    drawing.run();
    g.setClip(before);
  }
}
