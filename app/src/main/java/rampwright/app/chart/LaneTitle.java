package rampwright.app.chart;

import java.awt.Graphics2D;

/** The line over a lane: quantity, unit, legend, unit of the second scale. */
final class LaneTitle {
  private final Lane lane;
  private final Ink ink;
  private final double u;

  LaneTitle(Lane lane, Ink ink) {
    this.lane = lane;
    this.ink = ink;
    this.u = ink.unit;
  }

  void paint(Graphics2D g, double x, double y, double width) {
    var bold = ink.bold(0.98);
    var plain = ink.plain(0.92);
    String title = Ink.fit(lane.title(), bold, 0.7 * width);
    Ink.write(g, title, bold, ink.text, x, y);
    double at = x + Ink.width(title, bold) + 0.5 * u;
    Ink.write(g, lane.range().unit(), plain, ink.muted, at, y);
    at += Ink.width(lane.range().unit(), plain) + 1.6 * u;
    double end = x + width;
    Lane.RightScale scale = lane.rightScale();
    if (scale != null) {
      double unitWidth = Ink.width(scale.unit(), plain);
      Ink.write(g, scale.unit(), plain, ink.muted, end + 2.0 * u - unitWidth, y);
      end -= Math.max(0, unitWidth - 1.6 * u);
    }
    boolean tight = legendWidth(2.6, 1.3) > end - at;
    double sample = (tight ? 1.8 : 2.6) * u;
    double gap = (tight ? 0.8 : 1.3) * u;
    for (Lane.LegendEntry entry : lane.legend()) {
      double need = sample + 0.45 * u + Ink.width(entry.label(), plain);
      if (at + need > end) {
        return;
      }
      SidePanel.swatch(g, entry, at, y - 0.32 * u, sample, ink);
      Ink.write(g, entry.label(), plain, ink.text, at + sample + 0.45 * u, y);
      at += need + gap;
    }
  }

  private double legendWidth(double sample, double gap) {
    var plain = ink.plain(0.92);
    double width = -gap * u;
    for (Lane.LegendEntry entry : lane.legend()) {
      width += (sample + 0.45 + gap) * u + Ink.width(entry.label(), plain);
    }
    return width;
  }
}
