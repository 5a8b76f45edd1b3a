package rampwright.app.chart;

import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.List;

/** The panel beside or under the lanes: a legend, where lines need a list, and figures. */
final class SidePanel {
  private static final double FIGURE_ROW = 2.85;
  private static final double LEGEND_ROW = 1.55;
  private static final double NOTE_ROW = 1.2;

  private final List<Lane.LegendEntry> legend;
  private final List<FigureLine> figures;
  private final Ink ink;

  SidePanel(List<Lane.LegendEntry> legend, List<FigureLine> figures, Ink ink) {
    this.legend = legend;
    this.figures = figures;
    this.ink = ink;
  }

  boolean isEmpty() {
    return legend.isEmpty() && figures.isEmpty();
  }

  void paint(Graphics2D g, double x, double y, double width, double height) {
    g.setColor(ink.panel);
    g.fill(new Rectangle2D.Double(x, y, width, height));
    double pad = 0.9 * ink.unit;
    double inner = width - 2 * pad;
    double row = y + 0.6 * ink.unit;
    double end = y + height - 0.4 * ink.unit;
    row = legend(g, x + pad, row, inner, end);
    figures(g, x + pad, row, inner, end);
  }

  /** Draws in columns, as under the lanes of a narrow chart. */
  void paintWide(Graphics2D g, double x, double y, double width, double height) {
    g.setColor(ink.panel);
    g.fill(new Rectangle2D.Double(x, y, width, height));
    int columns = (int) Math.max(1, Math.floor(width / (14 * ink.unit)));
    double pad = 0.7 * ink.unit;
    double column = (width - pad) / columns;
    double end = y + height - 0.2 * ink.unit;
    double top = y + 0.35 * ink.unit;
    if (!legend.isEmpty()) {
      int perColumn = (int) Math.max(1, Math.floor((end - top) / (LEGEND_ROW * ink.unit)));
      for (int i = 0; i < Math.min(legend.size(), perColumn * columns); i++) {
        double cx = x + pad + column * (i / perColumn);
        entry(g, legend.get(i), cx, top + LEGEND_ROW * ink.unit * (i % perColumn), column - pad);
      }
      return;
    }
    int perColumn = (int) Math.max(1, Math.floor((end - top) / (FIGURE_ROW * ink.unit)));
    for (int i = 0; i < Math.min(figures.size(), perColumn * columns); i++) {
      double cx = x + pad + column * (i / perColumn);
      figure(g, figures.get(i), cx, top + FIGURE_ROW * ink.unit * (i % perColumn), column - pad);
    }
  }

  private double legend(Graphics2D g, double x, double y, double width, double end) {
    double row = y;
    int shown = 0;
    for (Lane.LegendEntry entry : legend) {
      double need = (LEGEND_ROW + (entry.note().isEmpty() ? 0 : NOTE_ROW)) * ink.unit;
      boolean lastOne = shown == legend.size() - 1;
      if (row + need + (lastOne ? 0 : LEGEND_ROW * ink.unit) > end) {
        more(g, legend.size() - shown, x, row, width);
        return end;
      }
      entry(g, entry, x, row, width);
      row += need;
      shown++;
    }
    return legend.isEmpty() ? row : row + 0.6 * ink.unit;
  }

  private void entry(Graphics2D g, Lane.LegendEntry entry, double x, double y, double width) {
    double sample = 3.0 * ink.unit;
    swatch(g, entry, x, y + 0.72 * ink.unit, sample, ink);
    double textX = x + sample + 0.6 * ink.unit;
    double room = width - sample - 0.6 * ink.unit;
    var font = ink.plain(0.95);
    Ink.write(g, Ink.fit(entry.label(), font, room), font, ink.text, textX, y + 1.05 * ink.unit);
    var small = ink.plain(0.82);
    Ink.write(g, Ink.fit(entry.note(), small, room), small, ink.muted, textX, y + 2.15 * ink.unit);
  }

  /** The sample of a line or band in a legend. */
  static void swatch(
      Graphics2D g, Lane.LegendEntry entry, double x, double y, double width, Ink ink) {
    g.setColor(entry.look().colour());
    if (entry.band()) {
      g.fill(new Rectangle2D.Double(x, y - 0.32 * ink.unit, width, 0.64 * ink.unit));
    } else {
      g.setStroke(entry.look().stroke());
      g.draw(new Line2D.Double(x, y, x + width, y));
    }
  }

  private void figures(Graphics2D g, double x, double y, double width, double end) {
    double row = y;
    int shown = 0;
    for (FigureLine figure : figures) {
      boolean lastOne = shown == figures.size() - 1;
      double need = FIGURE_ROW * ink.unit;
      if (row + need + (lastOne ? 0 : 1.3 * ink.unit) > end + 0.5 * ink.unit) {
        more(g, figures.size() - shown, x, row, width);
        return;
      }
      figure(g, figure, x, row, width);
      row += need;
      shown++;
      if (!lastOne) {
        g.setColor(ink.grid);
        g.setStroke(ink.hair(0.9));
        double rule = row - 0.22 * ink.unit;
        g.draw(new Line2D.Double(x, rule, x + width, rule));
      }
    }
  }

  private void more(Graphics2D g, int count, double x, double y, double width) {
    var font = ink.plain(0.88);
    String words = Ink.fit("and " + count + " more", font, width);
    Ink.write(g, words, font, ink.muted, x, y + ink.unit);
  }

  private void figure(Graphics2D g, FigureLine figure, double x, double y, double width) {
    var small = ink.plain(0.85);
    double labelY = y + 0.95 * ink.unit;
    double labelRoom = width;
    if (figure.judgement() != Judgement.NONE) {
      String word = figure.judgement().word();
      double wordWidth = Ink.width(word, small);
      double wordX = x + width - wordWidth;
      double size = 0.9 * ink.unit;
      Badge.paint(
          g, figure.judgement(), wordX - 0.85 * ink.unit, labelY - 0.3 * ink.unit, size, ink);
      Ink.write(g, word, small, ink.verdict(figure.judgement()), wordX, labelY);
      labelRoom = width - wordWidth - 2.1 * ink.unit;
    }
    Ink.write(g, Ink.fit(figure.label(), small, labelRoom), small, ink.muted, x, labelY);
    double valueY = y + 2.2 * ink.unit;
    Double value = figure.value();
    if (value == null) {
      String why = figure.note().isEmpty() ? "not to be had" : figure.note();
      Ink.write(g, Ink.fit(why, small, width), small, ink.muted, x, valueY);
      return;
    }
    var bold = ink.bold(1.12);
    String number = Numbers.value(value, figure.uncertainty());
    Ink.write(g, number, bold, ink.text, x, valueY);
    double at = x + Ink.width(number, bold) + 0.35 * ink.unit;
    String tail = (figure.unit() + " " + Numbers.uncertainty(figure.uncertainty())).strip();
    var plain = ink.plain(0.92);
    String shownTail = Ink.fit(tail, plain, x + width - at);
    Ink.write(g, shownTail, plain, ink.text, at, valueY);
    double after = at + Ink.width(shownTail, plain) + 0.6 * ink.unit;
    double room = x + width - after;
    if (!figure.note().isEmpty() && room > 3 * ink.unit) {
      String note = Ink.fit(figure.note(), small, room);
      Ink.write(g, note, small, ink.muted, x + width - Ink.width(note, small), valueY);
    }
  }
}
