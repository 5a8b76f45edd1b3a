package rampwright.app.chart;

import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.util.function.Supplier;

/** Charts of trials as the bytes of a picture. Needs no display. */
public final class TrialCharts {
  private TrialCharts() {}

  /**
   * Draws a chart.
   *
   * <p>The same request, style and format give the same bytes on the same machine; type differs
   * between machines with different fonts.
   *
   * @return a whole PNG or SVG file
   */
  public static byte[] render(ChartRequest request, ChartStyle style, Format format) {
    int columns = (int) Math.ceil(style.width() * format.pixelsPerUnit());
    Sheet sheet = sheet(request, new Ink(style), columns);
    return format.isVector() ? SvgOut.write(sheet, style) : png(sheet, style, format);
  }

  private static Sheet sheet(ChartRequest request, Ink ink, int columns) {
    if (request instanceof TrialPlot plot) {
      return TrialSheet.of(plot, ink, columns);
    }
    if (request instanceof DipPlot plot) {
      return DipSheet.of(plot, ink);
    }
    if (request instanceof OverlayPlot plot) {
      return ComparisonSheets.overlay(plot, ink);
    }
    if (request instanceof DifferencePlot plot) {
      return ComparisonSheets.difference(plot, ink);
    }
    if (request instanceof LanesPlot plot) {
      return LanesSheet.of(plot, ink);
    }
    return PredictionSheet.of((PredictionPlot) request, ink);
  }

  private static byte[] png(Sheet sheet, ChartStyle style, Format format) {
    double scale = format.pixelsPerUnit();
    int width = (int) Math.round(style.width() * scale);
    int height = (int) Math.round(style.height() * scale);
    BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    Supplier<Graphics2D> scratch =
        () -> {
          Graphics2D g = new BufferedImage(1, 1, BufferedImage.TYPE_INT_RGB).createGraphics();
          prepare(g, scale);
          return g;
        };
    Graphics2D g = image.createGraphics();
    prepare(g, scale);
    new SheetPainter(sheet, style, format, scratch).paint(g);
    g.dispose();
    return PngOut.write(image, 96 * scale);
  }

  private static void prepare(Graphics2D g, double scale) {
    g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
    g.setRenderingHint(
        RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
    g.setRenderingHint(
        RenderingHints.KEY_FRACTIONALMETRICS, RenderingHints.VALUE_FRACTIONALMETRICS_ON);
    g.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
    g.scale(scale, scale);
  }
}
