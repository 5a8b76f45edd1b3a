package rampwright.app.chart;

/** What a model expects of a channel: its 5 %, 50 % and 95 % quantiles against time. */
public final class PredictedBand {
  private final double[] timeS;
  private final double[] low;
  private final double[] median;
  private final double[] high;

  /**
   * A band; arrays of one length, which are copied.
   *
   * @param timeS time from inception, s, increasing
   * @param low 5 % quantile at those times
   * @param median 50 % quantile
   * @param high 95 % quantile
   */
  public PredictedBand(double[] timeS, double[] low, double[] median, double[] high) {
    if (low.length != timeS.length
        || median.length != timeS.length
        || high.length != timeS.length) {
      throw new IllegalArgumentException(
          "predicted band: "
              + timeS.length
              + " times, "
              + low.length
              + " low, "
              + median.length
              + " median and "
              + high.length
              + " high values");
    }
    this.timeS = timeS.clone();
    this.low = low.clone();
    this.median = median.clone();
    this.high = high.clone();
  }

  // For this package, which does not write to them.

  double[] timeS() {
    return timeS;
  }

  double[] low() {
    return low;
  }

  double[] median() {
    return median;
  }

  double[] high() {
    return high;
  }
}
