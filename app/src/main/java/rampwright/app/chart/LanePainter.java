package rampwright.app.chart;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.Locale;
import java.util.concurrent.atomic.AtomicReference;
import org.jspecify.annotations.Nullable;
import org.knowm.xchart.XYChart;
import org.knowm.xchart.internal.chartpart.Annotation;
import org.knowm.xchart.style.AxesChartStyler.TextAlignment;
import org.knowm.xchart.style.XYStyler;
import org.knowm.xchart.style.markers.SeriesMarkers;

/**
 * Draws a lane: axes, ticks and grid by the chart library, its layers on top through the library's
 * annotation hook.
 */
final class LanePainter {
  private final Lane lane;
  private final Span time;
  private final AxisRange timeAxis;
  private final boolean withTimeAxis;
  private final Ink ink;

  LanePainter(Lane lane, Span time, String timeUnit, boolean withTimeAxis, Ink ink) {
    this.lane = lane;
    this.time = time;
    this.timeAxis = AxisRange.of(time.fromS(), time.toS(), timeUnit, AxisRange.Fit.EXACT);
    this.withTimeAxis = withTimeAxis;
    this.ink = ink;
  }

  /** Unit the time axis shows. */
  String timeUnit() {
    return timeAxis.unit();
  }

  /** Drawing area within a lane of a size, without its layers; {@code scratch} is painted over. */
  Plane measure(Graphics2D scratch, int width, int height, double pixelsPerUnit) {
    return paint(scratch, width, height, pixelsPerUnit, false);
  }

  /** Draws the lane with its upper left corner at the origin; yields its drawing area. */
  Plane paint(Graphics2D g, int width, int height, double pixelsPerUnit) {
    return paint(g, width, height, pixelsPerUnit, true);
  }

  private Plane paint(
      Graphics2D g, int width, int height, double pixelsPerUnit, boolean withLayers) {
    XYChart chart = new XYChart(width, height);
    style(chart.getStyler(), height);
    double from = timeAxis.shown(time.fromS());
    double span = timeAxis.shown(time.toS()) - from;
    // The library puts ticks on data points when they are evenly spaced, and on clean values
    // otherwise. Two uneven points without a value make it choose clean values.
    chart
        .addSeries(
            "ticks",
            new double[] {from + 0.1 * span, from + 0.37 * span},
            new double[] {Double.NaN, Double.NaN})
        .setMarker(SeriesMarkers.NONE)
        .setShowInLegend(false);
    AtomicReference<@Nullable Plane> plane = new AtomicReference<>();
    chart.addAnnotation(new Hook(chart, plane, pixelsPerUnit, withLayers));
    chart.paint(g, width, height);
    Plane drawn = plane.get();
    if (drawn == null) {
      throw new IllegalStateException("lane " + lane.title() + " was not drawn");
    }
    return drawn;
  }

  private void style(XYStyler styler, int height) {
    Color clear = new Color(0, 0, 0, 0);
    styler.setLocale(Locale.ROOT);
    styler.setChartBackgroundColor(clear);
    styler.setPlotBackgroundColor(clear);
    styler.setPlotBorderVisible(false);
    styler.setChartTitleVisible(false);
    styler.setLegendVisible(false);
    styler.setChartPadding((int) Math.round(0.45 * ink.unit));
    styler.setPlotMargin(0);
    styler.setPlotContentSize(1.0);
    styler.setPlotGridLinesColor(ink.grid);
    styler.setPlotGridLinesStroke(ink.hair(0.8));
    styler.setPlotGridVerticalLinesVisible(true);
    styler.setAxisTicksLineVisible(false);
    styler.setAxisTicksMarksVisible(false);
    styler.setAxisTickMarkLength(0);
    styler.setAxisTickPadding((int) Math.round(0.45 * ink.unit));
    styler.setAxisTickLabelsFont(ink.plain(0.92));
    styler.setAxisTickLabelsColor(ink.muted);
    styler.setXAxisTickLabelsColor(ink.muted);
    styler.setYAxisTickLabelsColor(ink.muted);
    styler.setXAxisTicksVisible(withTimeAxis);
    styler.setXAxisTitleVisible(false);
    styler.setYAxisTitleVisible(false);
    styler.setYAxisLabelAlignment(TextAlignment.Right);
    styler.setXAxisTickMarkSpacingHint((int) Math.round(5.5 * ink.unit));
    styler.setYAxisTickMarkSpacingHint(
        (int) Math.round(Math.max(8, Math.min(4.6 * ink.unit, height / 3.5))));
    styler.setXAxisTickLabelsFormattingFunction(AxisRange::label);
    styler.setYAxisTickLabelsFormattingFunction(AxisRange::label);
    styler.setXAxisMin(timeAxis.shown(time.fromS()));
    styler.setXAxisMax(timeAxis.shown(time.toS()));
    styler.setYAxisMin(lane.range().shown(lane.range().min()));
    styler.setYAxisMax(lane.range().shown(lane.range().max()));
    styler.setAntiAlias(true);
  }

  /** Where the library hands over to the layers. */
  private final class Hook extends Annotation {
    private final XYChart owner;
    private final AtomicReference<@Nullable Plane> plane;
    private final double pixelsPerUnit;
    private final boolean withLayers;

    Hook(
        XYChart owner,
        AtomicReference<@Nullable Plane> plane,
        double pixelsPerUnit,
        boolean withLayers) {
      super(false);
      this.owner = owner;
      this.plane = plane;
      this.pixelsPerUnit = pixelsPerUnit;
      this.withLayers = withLayers;
    }

    @Override
    public void paint(Graphics2D g) {
      // The library refuses to place values on an axis shorter than this hint.
      owner.getStyler().setXAxisTickMarkSpacingHint(1);
      double left = owner.getScreenXFromChart(timeAxis.shown(time.fromS()));
      double right = owner.getScreenXFromChart(timeAxis.shown(time.toS()));
      double bottom = owner.getScreenYFromChart(lane.range().shown(lane.range().min()));
      double top = owner.getScreenYFromChart(lane.range().shown(lane.range().max()));
      Plane drawn =
          new Plane(left, top, right - left, bottom - top, time, lane.range(), pixelsPerUnit);
      plane.set(drawn);
      if (withLayers) {
        layers(g, drawn);
      }
    }
  }

  private void layers(Graphics2D g, Plane plane) {
    zeroLine(g, plane);
    Layers.clipped(
        g,
        new Rectangle2D.Double(plane.left(), plane.top(), plane.width(), plane.height()),
        () -> lane.layers().forEach(layer -> layer.paint(g, plane, ink)));
    rightScale(g, plane);
    if (lane.empty() != null) {
      var font = ink.plain(1.0);
      String words = Ink.fit(lane.empty(), font, plane.width());
      Ink.write(
          g,
          words,
          font,
          ink.muted,
          plane.left() + (plane.width() - Ink.width(words, font)) / 2,
          plane.top() + plane.height() / 2);
    }
  }

  private void zeroLine(Graphics2D g, Plane plane) {
    if (lane.range().min() <= 0 && lane.range().max() >= 0) {
      double y = plane.y(0);
      g.setColor(Ink.pale(ink.muted, 0.75));
      g.setStroke(ink.hair(1.0));
      g.draw(new Line2D.Double(plane.left(), y, plane.right(), y));
    }
  }

  private void rightScale(Graphics2D g, Plane plane) {
    Lane.RightScale scale = lane.rightScale();
    if (scale == null) {
      return;
    }
    var font = ink.plain(0.85);
    double low = lane.range().min() / scale.perUnit();
    double high = lane.range().max() / scale.perUnit();
    double step = Ticks.step(low, high, plane.height() / (3.4 * ink.unit));
    // Below zero only the waveform goes, and multiples of an RMS value mean nothing there.
    for (double value : Ticks.of(Math.max(0, low), high, step)) {
      double y = plane.y(value * scale.perUnit());
      g.setColor(ink.muted);
      g.setStroke(ink.hair(1.0));
      g.draw(new Line2D.Double(plane.right() - 0.4 * ink.unit, y, plane.right(), y));
      Ink.write(
          g,
          AxisRange.label(value),
          font,
          ink.muted,
          plane.right() + 0.4 * ink.unit,
          y + 0.3 * ink.unit);
    }
  }
}
