package rampwright.app.advice;

import rampwright.analysis.fit.TrialObservation;

/**
 * Which figures of a trial hang on when full speed was reached, where no channel shows it and a
 * rule dates it: they carry the rule's error, and what they hide is no evidence.
 */
final class DatedFigures {
  // Readings scatter by less; more is a current that went on rising after the date.
  private static final double HIGHER = 1.015;

  private DatedFigures() {}

  /** Whether a figure, by its key, hangs on the date of full speed in this trial. */
  static boolean hangs(AdviceRequest.Trial trial, String key) {
    if (trial.observation().speedRpm() != null) {
      return false;
    }
    return switch (key) {
      case "start_time_s",
          "breakaway_delay_s",
          "rms_current_A",
          "rms_current_ratio",
          "i2t_A2s",
          "i2t_ratio_s",
          "motor_heat_hot_pct",
          "motor_heat_cold_pct" ->
          true;
      default -> isExtremeHidden(trial, key);
    };
  }

  /**
   * Whether a figure is an extreme of the start and the current was larger after the date of full
   * speed than before: then the date was early, or the extreme is none of the start's.
   */
  static boolean isExtremeHidden(AdviceRequest.Trial trial, String key) {
    boolean extreme =
        switch (key) {
          case "peak_current_A",
              "peak_current_ratio",
              "voltage_dip_pct",
              "voltage_min_V",
              "start_drop_pct" ->
              true;
          default -> false;
        };
    TrialObservation seen = trial.observation();
    Double peakA = trial.figures().get("peak_current_A");
    if (!extreme || seen.speedRpm() != null || peakA == null) {
      return false;
    }
    return largestA(seen) > HIGHER * peakA;
  }

  /** Largest current of the highest phase before the stop, median of three readings. */
  private static double largestA(TrialObservation seen) {
    double until = Double.isNaN(seen.stopBeginS()) ? seen.releaseS() : seen.stopBeginS();
    double[] t = seen.timeS();
    double[] i = seen.currentA();
    double most = 0;
    for (int k = 1; k + 1 < t.length; k++) {
      boolean started = t[k] > seen.inceptionS() && !(t[k] > until);
      double median =
          Math.max(Math.min(i[k - 1], i[k]), Math.min(Math.max(i[k - 1], i[k]), i[k + 1]));
      // NaN, a reading that is not there, compares as smaller.
      if (started && median > most) {
        most = median;
      }
    }
    return most * seen.phases().highestCurrent();
  }
}
