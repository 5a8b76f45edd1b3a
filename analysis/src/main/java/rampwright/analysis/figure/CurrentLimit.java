package rampwright.analysis.figure;

/**
 * The current limit a trial was made with, for findings about it.
 *
 * @param limitA limit, A RMS
 * @param rampUpS ramp-up time, s
 */
public record CurrentLimit(double limitA, double rampUpS) {
  public CurrentLimit {
    if (!(limitA > 0) || !(rampUpS >= 0)) {
      throw new IllegalArgumentException(
          "current limit " + limitA + " A, ramp-up " + rampUpS + " s");
    }
  }
}
