package rampwright.app.chart;

import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.util.function.Supplier;

/** Lays a sheet out and draws it: head, lanes, panel beside or under them, foot. */
final class SheetPainter {
  /** Under this width, in text sizes, the panel goes beneath the lanes. */
  private static final double NARROW = 62;

  private final Sheet sheet;
  private final ChartStyle style;
  private final Ink ink;
  private final double u;
  private final double pixelsPerUnit;
  private final Supplier<Graphics2D> scratch;

  /**
   * A painter.
   *
   * @param scratch graphics of the kind that will be painted on, to measure axes with
   */
  SheetPainter(Sheet sheet, ChartStyle style, Format format, Supplier<Graphics2D> scratch) {
    this.sheet = sheet;
    this.style = style;
    this.ink = new Ink(style);
    this.u = ink.unit;
    this.pixelsPerUnit = format.pixelsPerUnit();
    this.scratch = scratch;
  }

  void paint(Graphics2D g) {
    g.setColor(ink.paper);
    g.fill(new Rectangle2D.Double(0, 0, style.width(), style.height()));
    double margin = 1.1 * u;
    HeadingPainter heading = new HeadingPainter(sheet.heading(), style, ink);
    double top = heading.head(g, margin);
    double bottom = style.height() - heading.foot(g, margin);
    double right = style.width() - margin;
    SidePanel panel = new SidePanel(sheet.legend(), sheet.figures(), ink);
    if (!panel.isEmpty()) {
      if (style.width() < NARROW * u) {
        double width = right - margin;
        double height = Math.min(panel.mostShare(width) * (bottom - top), panel.wideHeight(width));
        panel.paintWide(g, margin, bottom - height, width, height);
        bottom -= height + 0.5 * u;
      } else {
        double width = Math.max(17.5 * u, Math.min(26 * u, 0.23 * style.width()));
        panel.paint(g, right - width, top, width, bottom - top);
        right -= width + 0.9 * u;
      }
    }
    new LaneStack(sheet, ink, pixelsPerUnit).paint(g, margin, top, right, bottom, scratch);
  }
}
