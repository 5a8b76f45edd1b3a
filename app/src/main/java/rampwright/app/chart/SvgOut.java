package rampwright.app.chart;

import de.erichseifert.vectorgraphics2d.VectorGraphics2D;
import de.erichseifert.vectorgraphics2d.svg.SVGProcessor;
import de.erichseifert.vectorgraphics2d.util.PageSize;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.util.regex.Pattern;

/** SVG files, kept short. */
final class SvgOut {
  /** Numbers with more decimals than can be seen. */
  private static final Pattern LONG_NUMBER = Pattern.compile("-?\\d+\\.\\d{3,}(?:[eE]-?\\d+)?");

  private SvgOut() {}

  static byte[] write(Sheet sheet, ChartStyle style) {
    VectorGraphics2D g = new VectorGraphics2D();
    new SheetPainter(sheet, style, Format.SVG, VectorGraphics2D::new).paint(g);
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try {
      new SVGProcessor()
          .getDocument(g.getCommands(), new PageSize(style.width(), style.height()))
          .writeTo(bytes);
    } catch (IOException e) {
      throw new UncheckedIOException("SVG could not be written to memory", e);
    }
    return shortened(bytes.toString(StandardCharsets.UTF_8)).getBytes(StandardCharsets.UTF_8);
  }

  private static String shortened(String svg) {
    return LONG_NUMBER
        .matcher(svg)
        .replaceAll(
            number ->
                new BigDecimal(number.group())
                    .setScale(2, RoundingMode.HALF_UP)
                    .stripTrailingZeros()
                    .toPlainString());
  }
}
