package rampwright.app.chart;

import java.awt.BasicStroke;
import java.awt.Graphics2D;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;

/** The shape of a verdict: disc with tick, diamond with cross, empty square with bar. */
final class Badge {
  private Badge() {}

  /** Draws a badge of a size, centred at (x, y). */
  static void paint(Graphics2D g, Judgement judgement, double x, double y, double size, Ink ink) {
    double r = size / 2;
    Path2D.Double sign = new Path2D.Double();
    g.setColor(ink.verdict(judgement));
    switch (judgement) {
      case MET -> {
        g.fill(new Ellipse2D.Double(x - r, y - r, size, size));
        sign.moveTo(x - 0.48 * r, y + 0.05 * r);
        sign.lineTo(x - 0.1 * r, y + 0.42 * r);
        sign.lineTo(x + 0.5 * r, y - 0.38 * r);
        g.setColor(ink.paper);
      }
      case MISSED -> {
        Path2D.Double diamond = new Path2D.Double();
        double d = 1.22 * r;
        diamond.moveTo(x, y - d);
        diamond.lineTo(x + d, y);
        diamond.lineTo(x, y + d);
        diamond.lineTo(x - d, y);
        diamond.closePath();
        g.fill(diamond);
        double c = 0.36 * r;
        sign.moveTo(x - c, y - c);
        sign.lineTo(x + c, y + c);
        sign.moveTo(x - c, y + c);
        sign.lineTo(x + c, y - c);
        g.setColor(ink.paper);
      }
      case NOT_ASSESSABLE -> {
        double d = 0.85 * r;
        g.setStroke(new BasicStroke((float) (size * 0.1)));
        g.draw(new Rectangle2D.Double(x - d, y - d, 2 * d, 2 * d));
        sign.moveTo(x - 0.42 * d, y);
        sign.lineTo(x + 0.42 * d, y);
      }
      case NONE -> {
        return;
      }
    }
    g.setStroke(
        new BasicStroke((float) (size * 0.13), BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
    g.draw(sign);
  }
}
