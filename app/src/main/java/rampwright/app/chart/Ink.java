package rampwright.app.chart;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.font.FontRenderContext;
import java.util.List;

/**
 * Colours, strokes and type of a chart.
 *
 * <p>The six line colours of each theme were searched for: contrast with the ground at least 3 : 1
 * (WCAG 2.2, 1.4.11), and as far apart as possible in CIELAB for normal sight and for the three
 * dichromacies as simulated by Machado, Oliveira and Fernandes (2009). The test of this class
 * computes both again. Dashes repeat the distinction without colour.
 */
final class Ink {
  private static final int DASHES = 8;

  private static final List<Color> LIGHT_LINES =
      colours(0x2b2f77, 0xd4610c, 0x2f9a94, 0x720a3b, 0x976847, 0x9386d5);
  private static final List<Color> DARK_LINES =
      colours(0x9a93ff, 0xf08a3c, 0x8fe6d8, 0x8f71a0, 0xd8d49b, 0x0d9971);

  /** Text is measured the same way whatever it is drawn on, so PNG and SVG share one layout. */
  private static final FontRenderContext MEASURE = new FontRenderContext(null, true, true);

  final double unit;
  final Color paper;
  final Color panel;
  final Color text;
  final Color muted;
  final Color grid;
  final Color accent;
  final Color met;
  final Color missed;
  private final List<Color> lines;

  Ink(ChartStyle style) {
    unit = style.fontSize();
    boolean light = style.theme() == ChartStyle.Theme.LIGHT;
    lines = light ? LIGHT_LINES : DARK_LINES;
    paper = new Color(light ? 0xffffff : 0x12171c);
    panel = new Color(light ? 0xf3f4f0 : 0x1b2229);
    text = new Color(light ? 0x1b2126 : 0xe9ebe6);
    muted = new Color(light ? 0x59636b : 0xa3adb3);
    grid = new Color(light ? 0xe3e6e4 : 0x2a323a);
    accent = new Color(light ? 0x0d6b78 : 0x5fc7d0);
    met = new Color(light ? 0x0d6b78 : 0x5fc7d0);
    missed = new Color(light ? 0xb0202f : 0xff7d78);
  }

  private static List<Color> colours(int... rgb) {
    return java.util.Arrays.stream(rgb).mapToObj(Color::new).toList();
  }

  /** Colours of lines in order of use. */
  List<Color> lineColours() {
    return lines;
  }

  /**
   * Look of the n-th of several lines; no two of the first 8 share their dashes, and no two of the
   * first 24 both colour and dashes.
   */
  LineLook line(int n) {
    return new LineLook(lines.get(n % lines.size()), stroke(n % DASHES + n / 12, 1.0));
  }

  /** Look of a single curve that needs no telling apart. */
  LineLook plainLine() {
    return new LineLook(text, stroke(0, 1.0));
  }

  /** Look of a pale guide line. */
  LineLook guide() {
    return new LineLook(muted, stroke(1, 0.7));
  }

  private BasicStroke stroke(int dash, double weight) {
    float w = (float) (unit / 8.0 * weight);
    float[] pattern =
        switch (dash % DASHES) {
          case 1 -> new float[] {5f * w, 2.4f * w};
          case 2 -> new float[] {1.3f * w, 1.9f * w};
          case 3 -> new float[] {7f * w, 2f * w, 1.3f * w, 2f * w};
          case 4 -> new float[] {12f * w, 3f * w};
          case 5 -> new float[] {5f * w, 2f * w, 1.3f * w, 2f * w, 1.3f * w, 2f * w};
          case 6 -> new float[] {2.6f * w, 5f * w};
          case 7 -> new float[] {12f * w, 2f * w, 1.3f * w, 2f * w, 1.3f * w, 2f * w};
          default -> null;
        };
    // Solid lines lie beneath dashed ones and show through their gaps, so they are a little wider.
    float width = dash % DASHES == 0 ? 1.15f * w : w;
    return pattern == null
        ? new BasicStroke(width, BasicStroke.CAP_BUTT, BasicStroke.JOIN_BEVEL)
        : new BasicStroke(width, BasicStroke.CAP_BUTT, BasicStroke.JOIN_BEVEL, 10f, pattern, 0f);
  }

  /** A hairline of some weight. */
  BasicStroke hair(double weight) {
    return new BasicStroke((float) (unit / 12.0 * weight));
  }

  /** A hairline in dashes, for what a person put there. */
  BasicStroke dashedHair() {
    float[] pattern = {(float) (0.4 * unit), (float) (0.25 * unit)};
    return new BasicStroke(
        (float) (unit / 12), BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 10f, pattern, 0f);
  }

  Color verdict(Judgement judgement) {
    return switch (judgement) {
      case MET -> met;
      case MISSED -> missed;
      case NOT_ASSESSABLE, NONE -> muted;
    };
  }

  static Color pale(Color colour, double opacity) {
    return new Color(
        colour.getRed(), colour.getGreen(), colour.getBlue(), (int) Math.round(255 * opacity));
  }

  /** Upright type, {@code size} times the base size. */
  Font plain(double size) {
    return ChartFont.of(Font.PLAIN, unit * size);
  }

  /** Bold type, {@code size} times the base size. */
  Font bold(double size) {
    return ChartFont.of(Font.BOLD, unit * size);
  }

  static double width(String text, Font font) {
    return text.isEmpty() ? 0 : font.getStringBounds(text, MEASURE).getWidth();
  }

  /** Text shortened to a width, with an ellipsis where something was cut. */
  static String fit(String text, Font font, double width) {
    if (width(text, font) <= width) {
      return text;
    }
    int low = 0;
    int high = text.length();
    while (low < high) {
      int middle = (low + high + 1) >>> 1;
      if (width(text.substring(0, middle).stripTrailing() + "…", font) <= width) {
        low = middle;
      } else {
        high = middle - 1;
      }
    }
    return low == 0 ? "" : text.substring(0, low).stripTrailing() + "…";
  }

  /** Draws text with its baseline's left end at (x, y). */
  static void write(Graphics2D g, String text, Font font, Color colour, double x, double y) {
    if (!text.isEmpty()) {
      g.setFont(font);
      g.setColor(colour);
      g.drawString(text, (float) x, (float) y);
    }
  }
}
