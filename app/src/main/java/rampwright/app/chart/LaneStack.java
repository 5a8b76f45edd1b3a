package rampwright.app.chart;

import java.awt.Graphics2D;
import java.awt.geom.AffineTransform;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Supplier;

/** Stacks lanes over one time axis, their drawing areas exactly above each other. */
final class LaneStack {
  private static final double LANE_TITLE = 1.95;
  private static final double TIME_AXIS = 2.6;

  /** Air the chart library leaves around an axis, in text sizes. */
  private static final double PADDING = 0.45;

  /** Axis widths follow tick labels, these follow heights, these follow flags: settles at once. */
  private static final int MOST_PASSES = 4;

  private final Sheet sheet;
  private final Ink ink;
  private final double u;
  private final double pixelsPerUnit;
  private final List<LanePainter> painters = new ArrayList<>();

  LaneStack(Sheet sheet, Ink ink, double pixelsPerUnit) {
    this.sheet = sheet;
    this.ink = ink;
    this.u = ink.unit;
    this.pixelsPerUnit = pixelsPerUnit;
    for (int i = 0; i < sheet.lanes().size(); i++) {
      boolean lowest = i == sheet.lanes().size() - 1;
      painters.add(
          new LanePainter(sheet.lanes().get(i), sheet.time(), sheet.timeUnit(), lowest, ink));
    }
  }

  /**
   * Draws within a rectangle.
   *
   * @param scratch graphics of the kind painted on, to measure axes with
   */
  void paint(
      Graphics2D g,
      double x,
      double top,
      double right,
      double bottom,
      Supplier<Graphics2D> scratch) {
    boolean second = sheet.lanes().stream().anyMatch(lane -> lane.rightScale() != null);
    int width = (int) Math.round(right - x - (second ? 2.4 * u : 0.4 * u));
    double railHeight = sheet.rail().isEmpty() ? 0 : MarkPainter.RAIL * u;
    int rows = 0;
    double above = 0;
    int[] heights = new int[painters.size()];
    double[] leftOf = new double[painters.size()];
    double left = 0;
    MarkPainter marks = new MarkPainter(sheet, ink, x, width, right, pixelsPerUnit == 1);
    for (int pass = 0; pass < MOST_PASSES; pass++) {
      above = above(rows, railHeight);
      int[] now = heights(bottom - top - above);
      boolean settled = pass > 0 && Arrays.equals(now, heights);
      heights = now;
      if (settled) {
        break;
      }
      double plotWidth = width;
      left = 0;
      for (int i = 0; i < painters.size(); i++) {
        Plane plane = painters.get(i).measure(scratch.get(), width, heights[i], pixelsPerUnit);
        leftOf[i] = plane.left();
        if (leftOf[i] >= left) {
          left = leftOf[i];
          plotWidth = plane.width();
        }
      }
      marks = new MarkPainter(sheet, ink, x + left, plotWidth, right, pixelsPerUnit == 1);
      rows = Math.max(rows, marks.rows());
    }
    double flagBottom = top + rows * MarkPainter.ROW * u;
    double railTop = flagBottom + (rows > 0 ? 0.25 * u : 0);
    marks.rail(g, railTop, railHeight);
    double y = top + above;
    for (int i = 0; i < painters.size(); i++) {
      double shift = left - leftOf[i];
      AffineTransform before = g.getTransform();
      double laneTop = y + (LANE_TITLE - PADDING) * u;
      g.translate(x + shift, laneTop);
      Plane plane =
          painters.get(i).paint(g, (int) Math.round(width - shift), heights[i], pixelsPerUnit);
      g.setTransform(before);
      new LaneTitle(sheet.lanes().get(i), ink).paint(g, x + left, y + 1.25 * u, plane.width());
      marks.stems(g, laneTop + plane.top(), laneTop + plane.bottom());
      if (i == painters.size() - 1) {
        timeTitle(g, x + left, plane.width(), laneTop + plane.bottom() + 2.55 * u);
      }
      y = laneTop + plane.bottom() + 0.1 * u;
    }
    marks.flags(g, flagBottom, railTop + railHeight);
  }

  private double above(int rows, double railHeight) {
    return rows * MarkPainter.ROW * u
        + (rows > 0 ? 0.25 * u : 0)
        + railHeight
        + (railHeight > 0 ? 0.15 * u : 0);
  }

  private int[] heights(double room) {
    List<Lane> lanes = sheet.lanes();
    double weights = lanes.stream().mapToDouble(Lane::weight).sum();
    double forPlots = room - TIME_AXIS * u - (LANE_TITLE + 0.1) * u * lanes.size();
    int[] heights = new int[lanes.size()];
    for (int i = 0; i < heights.length; i++) {
      double plot = Math.max(2.2 * u, forPlots * lanes.get(i).weight() / weights);
      boolean lowest = i == heights.length - 1;
      heights[i] = (int) Math.round(plot + 2 * PADDING * u + (lowest ? 1.4 * u : 0));
    }
    return heights;
  }

  private void timeTitle(Graphics2D g, double left, double width, double y) {
    var font = ink.plain(0.92);
    String words = sheet.timeTitle() + ", " + painters.get(0).timeUnit();
    Ink.write(g, words, font, ink.muted, left + (width - Ink.width(words, font)) / 2, y);
  }
}
