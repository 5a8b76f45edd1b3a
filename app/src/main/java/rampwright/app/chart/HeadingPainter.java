package rampwright.app.chart;

import java.awt.BasicStroke;
import java.awt.Graphics2D;
import java.awt.geom.Path2D;
import java.awt.geom.RoundRectangle2D;

/** Draws what stands over and under the lanes. */
final class HeadingPainter {
  private final Heading heading;
  private final ChartStyle style;
  private final Ink ink;
  private final double u;

  HeadingPainter(Heading heading, ChartStyle style, Ink ink) {
    this.heading = heading;
    this.style = style;
    this.ink = ink;
    this.u = ink.unit;
  }

  /** Draws the head; yields where the body begins. */
  double head(Graphics2D g, double margin) {
    double glyph = 2.1 * u;
    double y = 0.9 * u;
    emblem(g, margin, y, glyph);
    double x = margin + glyph + 0.8 * u;
    double right = style.width() - margin;
    double titleY = y + 1.05 * u;
    double subtitleY = y + 2.35 * u;
    double badgeFrom = verdict(g, right, titleY);
    double noteFrom = heading.invented() ? invented(g, right, subtitleY + 0.2 * u) : right;
    var title = ink.bold(1.3);
    Ink.write(g, Ink.fit(heading.title(), title, badgeFrom - x - u), title, ink.text, x, titleY);
    var plain = ink.plain(0.95);
    Ink.write(
        g, Ink.fit(heading.subtitle(), plain, noteFrom - x - u), plain, ink.muted, x, subtitleY);
    return y + 3.25 * u;
  }

  /** Draws the foot; yields its height. */
  double foot(Graphics2D g, double margin) {
    String words = heading.footnote();
    if (words.isEmpty()) {
      return 0.9 * u;
    }
    var font = ink.plain(0.78);
    double room = style.width() - 2 * margin;
    Ink.write(g, Ink.fit(words, font, room), font, ink.muted, margin, style.height() - 0.75 * u);
    return 2.1 * u;
  }

  /** A ramp that reaches its plateau. */
  private void emblem(Graphics2D g, double x, double y, double size) {
    Path2D.Double line = new Path2D.Double();
    line.moveTo(x, y + size);
    line.lineTo(x + 0.62 * size, y + 0.22 * size);
    line.lineTo(x + size, y + 0.22 * size);
    Path2D.Double under = new Path2D.Double(line);
    under.lineTo(x + size, y + size);
    under.closePath();
    g.setColor(Ink.pale(ink.accent, 0.2));
    g.fill(under);
    g.setColor(ink.accent);
    g.setStroke(new BasicStroke((float) (0.2 * u)));
    g.draw(line);
  }

  private double verdict(Graphics2D g, double right, double y) {
    double at = right;
    var font = ink.bold(1.0);
    if (heading.judgement() != Judgement.NONE) {
      String word = heading.judgement().word();
      at -= Ink.width(word, font);
      Ink.write(g, word, font, ink.verdict(heading.judgement()), at, y);
      at -= 0.95 * u;
      Badge.paint(g, heading.judgement(), at, y - 0.36 * u, 1.2 * u, ink);
      at -= 1.6 * u;
    }
    if (heading.outcome() != null) {
      String word = Ink.fit(heading.outcome(), font, 0.3 * style.width());
      at -= Ink.width(word, font);
      Ink.write(g, word, font, ink.text, at, y);
    }
    return at;
  }

  private double invented(Graphics2D g, double right, double y) {
    String words = "invented sample";
    var font = ink.plain(0.85);
    double width = Ink.width(words, font) + 1.4 * u;
    double x = right - width;
    g.setColor(ink.text);
    g.setStroke(ink.dashedHair());
    g.draw(new RoundRectangle2D.Double(x, y - 1.0 * u, width, 1.4 * u, 0.6 * u, 0.6 * u));
    Ink.write(g, words, font, ink.text, x + 0.7 * u, y);
    return x;
  }
}
