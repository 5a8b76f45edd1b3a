package rampwright.app.chart;

import java.awt.Font;

/**
 * The machine's sans-serif type under the name it has in SVG.
 *
 * <p>Under Java's own name for it the vector library would compare it with every installed font,
 * which takes seconds, and write the name of one that other machines need not have.
 */
final class ChartFont extends Font {
  private static final long serialVersionUID = 1L;

  private ChartFont(Font font) {
    super(font);
  }

  static ChartFont of(int style, double size) {
    return new ChartFont(new Font(SANS_SERIF, style, 1).deriveFont((float) size));
  }

  @Override
  public String getFamily() {
    return "sans-serif";
  }
}
