package rampwright.app.chart;

import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.List;

/** The panel beside or under the lanes: a legend, where lines need a list, and figures. */
final class SidePanel {
  private static final double FIGURE_ROW = FigureRow.HEIGHT;
  private static final double LEGEND_ROW = 1.55;
  private static final double NOTE_ROW = 1.2;
  private static final int MOST_NOTE_LINES = 9;

  /** A column that sentences can be read in, in text sizes. */
  private static final double READABLE = 34;

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

  private int columns(double width) {
    return (int) Math.max(1, Math.floor(width / (16 * ink.unit)));
  }

  /** Whether the figures are sentences rather than numbers with a word beside them. */
  private boolean isProse(double width) {
    double column = (width - 0.7 * ink.unit) / columns(width) - 0.7 * ink.unit;
    return legend.isEmpty()
        && figures.stream().anyMatch(f -> !new FigureRow(f, column, ink, 0).isWhole());
  }

  /** Share of the height that may be taken at most: sentences want more than numbers. */
  double mostShare(double width) {
    return isProse(width) ? 0.45 : 0.3;
  }

  /** Sentences under the lanes: columns as wide as they are readable, each filled in turn. */
  private void prose(Graphics2D g, double x, double y, double width, double height) {
    int columns = (int) Math.max(1, Math.floor(width / (READABLE * ink.unit)));
    double pad = 0.7 * ink.unit;
    double column = (width - pad) / columns;
    int perColumn = (figures.size() + columns - 1) / columns;
    for (int c = 0; c < columns; c++) {
      int from = Math.min(figures.size(), c * perColumn);
      List<FigureLine> part = figures.subList(from, Math.min(figures.size(), from + perColumn));
      new SidePanel(List.of(), part, ink)
          .figures(
              g,
              x + pad + column * c,
              y + 0.35 * ink.unit,
              column - pad,
              y + height - 0.2 * ink.unit);
    }
  }

  /** Height that holds everything in columns over a width. */
  double wideHeight(double width) {
    if (isProse(width)) {
      int columns = (int) Math.max(1, Math.floor(width / (READABLE * ink.unit)));
      double column = (width - 0.7 * ink.unit) / columns - 0.7 * ink.unit;
      return height(column, MOST_NOTE_LINES) / columns + 2 * ink.unit;
    }
    double columns = columns(width);
    double rows =
        legend.isEmpty()
            ? Math.ceil(figures.size() / columns) * FIGURE_ROW
            : Math.ceil(legend.size() / columns) * LEGEND_ROW;
    return (rows + 0.7) * ink.unit;
  }

  /** Draws in columns, as under the lanes of a narrow chart. */
  void paintWide(Graphics2D g, double x, double y, double width, double height) {
    g.setColor(ink.panel);
    g.fill(new Rectangle2D.Double(x, y, width, height));
    if (isProse(width)) {
      prose(g, x, y, width, height);
      return;
    }
    int columns = columns(width);
    double pad = 0.7 * ink.unit;
    double column = (width - pad) / columns;
    double end = y + height - 0.2 * ink.unit;
    double top = y + 0.35 * ink.unit;
    double rowHeight = (legend.isEmpty() ? FIGURE_ROW : LEGEND_ROW) * ink.unit;
    int count = legend.isEmpty() ? figures.size() : legend.size();
    int perColumn = (int) Math.max(1, Math.floor((end - top) / rowHeight));
    int cells = perColumn * columns;
    int shown = count <= cells ? count : cells - 1;
    for (int i = 0; i < shown; i++) {
      int inColumn = i / perColumn;
      double cx = x + pad + column * inColumn;
      double cy = top + rowHeight * (i % perColumn);
      if (legend.isEmpty()) {
        new FigureRow(figures.get(i), column - pad, ink, 0).paint(g, cx, cy);
      } else {
        entry(g, inOneLine(legend.get(i)), cx, cy, column - pad);
      }
    }
    if (shown < count) {
      double cx = x + pad + column * (columns - 1);
      more(g, count - shown, cx, top + rowHeight * (perColumn - 1), column - pad);
    }
  }

  private static Lane.LegendEntry inOneLine(Lane.LegendEntry entry) {
    String words = entry.note().isEmpty() ? entry.label() : entry.label() + ", " + entry.note();
    return new Lane.LegendEntry(entry.look(), entry.band(), words, "");
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
    int lines = noteLines(width, end - y);
    double row = y;
    int shown = 0;
    for (FigureLine figure : figures) {
      boolean lastOne = shown == figures.size() - 1;
      FigureRow drawn = new FigureRow(figure, width, ink, lines);
      double need = drawn.height();
      if (row + need + (lastOne ? 0 : 1.3 * ink.unit) > end + 0.5 * ink.unit) {
        more(g, figures.size() - shown, x, row, width);
        return;
      }
      drawn.paint(g, x, row);
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

  /**
   * As many lines below a number as the height has room for. Where most of it is sentences they are
   * whole, and the last ones give way.
   */
  private int noteLines(double width, double height) {
    int lines = MOST_NOTE_LINES;
    long sentences = figures.stream().filter(figure -> figure.value() == null).count();
    boolean whole = 2 * sentences >= figures.size();
    while (!whole && lines > 1 && height(width, lines) > height) {
      lines--;
    }
    return lines;
  }

  private double height(double width, int lines) {
    return figures.stream().mapToDouble(f -> new FigureRow(f, width, ink, lines).height()).sum();
  }

  private void more(Graphics2D g, int count, double x, double y, double width) {
    var font = ink.plain(0.88);
    String words = Ink.fit("and " + count + " more", font, width);
    Ink.write(g, words, font, ink.muted, x, y + ink.unit);
  }
}
