package rampwright.app.chart;

/**
 * Size and ground of a chart.
 *
 * @param width in units of 1/96 inch, 320 to 8000
 * @param height likewise, 240 to 8000
 * @param theme light for paper, dark for dim rooms
 */
public record ChartStyle(int width, int height, Theme theme) {
  /** Size that suits a screen and half a page. */
  public static final ChartStyle DEFAULT = new ChartStyle(1200, 800, Theme.LIGHT);

  public ChartStyle {
    if (width < 320 || width > 8000 || height < 240 || height > 8000) {
      throw new IllegalArgumentException(
          "chart size "
              + width
              + " x "
              + height
              + "; width is 320 to 8000 and height 240 to 8000 units of 1/96 inch");
    }
  }

  /** Ground a chart is drawn on. */
  public enum Theme {
    LIGHT,
    DARK
  }

  /** Text size: grows with the root of the chart's size, so that large charts stay readable. */
  double fontSize() {
    double side = Math.min(width, 1.55 * height);
    return Math.max(9.5, Math.min(30, 11.5 * Math.sqrt(side / 1050)));
  }
}
