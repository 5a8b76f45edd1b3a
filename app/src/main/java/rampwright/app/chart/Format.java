package rampwright.app.chart;

/** How a chart is written. Sizes of a style are in units of 1/96 inch, as on the web. */
public enum Format {
  /** One pixel per unit. */
  PNG(1),
  /** Two pixels per unit, for dense screens. */
  PNG_2X(2),
  /** 300 dots per inch, for print; the file says so. */
  PNG_300_DPI(300.0 / 96.0),
  /** Vector drawing. */
  SVG(1);

  private final double pixelsPerUnit;

  Format(double pixelsPerUnit) {
    this.pixelsPerUnit = pixelsPerUnit;
  }

  double pixelsPerUnit() {
    return pixelsPerUnit;
  }

  boolean isVector() {
    return this == SVG;
  }
}
