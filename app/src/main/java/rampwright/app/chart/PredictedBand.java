package rampwright.app.chart;

/**
 * What a model expects of a channel.
 *
 * @param timeS time from inception, s, increasing
 * @param low 5 % quantile at those times
 * @param median 50 % quantile
 * @param high 95 % quantile
 */
public record PredictedBand(double[] timeS, double[] low, double[] median, double[] high) {
  public PredictedBand {
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
    timeS = timeS.clone();
    low = low.clone();
    median = median.clone();
    high = high.clone();
  }
}
