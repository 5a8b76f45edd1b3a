package rampwright.app.chart;

/**
 * A stretch of time.
 *
 * @param fromS beginning, s
 * @param toS end, s, after the beginning
 */
public record Span(double fromS, double toS) {
  public Span {
    if (!(fromS < toS) || !Double.isFinite(toS - fromS)) {
      throw new IllegalArgumentException("time span from " + fromS + " s to " + toS + " s");
    }
  }

  double lengthS() {
    return toS - fromS;
  }
}
