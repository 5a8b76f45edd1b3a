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
import java.util.HashMap;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * SVG files: short, the same for the same chart, without a reference to anything outside, and with
 * a title for those who have it read out.
 */
final class SvgOut {
  private static final Pattern TAG = Pattern.compile("<[^>]*>");

  /** Numbers with more decimals than can be seen. */
  private static final Pattern LONG_NUMBER = Pattern.compile("-?\\d+\\.\\d{3,}(?:[eE]-?\\d+)?");

  /** The library names clips by identity, which differs from run to run. */
  private static final Pattern CLIP = Pattern.compile("\\bclip-?\\d+");

  /** In quotes it would be the name of a font instead of any without serifs. */
  private static final String QUOTED_FAMILY = "&quot;sans-serif&quot;";

  private static final Pattern DOCTYPE = Pattern.compile("<!DOCTYPE[^>]*>\\s*");
  private static final Pattern INDENT = Pattern.compile("\n\\s+");

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
    String svg = DOCTYPE.matcher(bytes.toString(StandardCharsets.UTF_8)).replaceFirst("");
    svg = INDENT.matcher(svg).replaceAll("\n");
    svg = titled(svg, sheet.heading().title());
    Map<String, String> clips = new HashMap<>();
    svg = TAG.matcher(svg).replaceAll(tag -> Matcher.quoteReplacement(tidied(tag.group(), clips)));
    return svg.getBytes(StandardCharsets.UTF_8);
  }

  private static String titled(String svg, String title) {
    int root = svg.indexOf("<svg");
    int end = svg.indexOf('>', root) + 1;
    return svg.substring(0, end) + "\n<title>" + escaped(title) + "</title>" + svg.substring(end);
  }

  private static String escaped(String text) {
    return text.codePoints()
        .filter(c -> c >= 0x20)
        .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
        .toString()
        .replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;");
  }

  private static String tidied(String tag, Map<String, String> clips) {
    String shorter =
        LONG_NUMBER
            .matcher(tag)
            .replaceAll(
                number ->
                    new BigDecimal(number.group())
                        .setScale(2, RoundingMode.HALF_UP)
                        .stripTrailingZeros()
                        .toPlainString());
    String named =
        CLIP.matcher(shorter)
            .replaceAll(clip -> clips.computeIfAbsent(clip.group(), key -> "c" + clips.size()));
    return named.replace(QUOTED_FAMILY, "sans-serif");
  }
}
