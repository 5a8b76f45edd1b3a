package rampwright.app.chart;

/**
 * Where values lie in the drawing area of a lane.
 *
 * @param left left edge, in drawing units
 * @param top upper edge
 * @param width width
 * @param height height
 * @param time span at the width
 * @param values range at the height
 * @param columnsPerUnit pixel columns in a drawing unit
 */
record Plane(
    double left,
    double top,
    double width,
    double height,
    Span time,
    AxisRange values,
    double columnsPerUnit) {
  private static final double FAR = 20_000;

  double x(double timeS) {
    return rounded(left + width * clamp((timeS - time.fromS()) / time.lengthS()));
  }

  double y(double value) {
    double share = (value - values.min()) / (values.max() - values.min());
    return rounded(top + height * (1 - clamp(share)));
  }

  double right() {
    return left + width;
  }

  double bottom() {
    return top + height;
  }

  int columns() {
    return Math.max(1, (int) Math.ceil(width * columnsPerUnit));
  }

  private double clamp(double share) {
    double far = FAR / Math.max(1, Math.max(width, height));
    return Math.max(-far, Math.min(far, share));
  }

  /** A hundredth of a unit is below what can be seen and keeps vector drawings short. */
  private static double rounded(double coordinate) {
    return Math.round(coordinate * 100) / 100.0;
  }
}
