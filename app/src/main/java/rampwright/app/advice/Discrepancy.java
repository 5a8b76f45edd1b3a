package rampwright.app.advice;

import rampwright.analysis.machine.RunFigure;

/**
 * How far a figure of the right parameters may still be off the machine: what the model leaves out
 * and the meter's gain. Standard deviations; measured on assets whose truth is known (module docs
 * of analysis, fit.md).
 */
final class Discrepancy {
  private Discrepancy() {}

  /**
   * Standard deviation of a figure's discrepancy, in the figure's unit.
   *
   * @param value predicted value
   * @param limited whether the current limit rules most of the start, which pins the peak
   */
  static double sigma(RunFigure figure, double value, boolean limited) {
    double share =
        switch (figure) {
          case START_TIME, SETTLING_TIME -> 0.025;
          case PEAK_CURRENT, PEAK_CURRENT_A -> limited ? 0.005 : 0.011;
          case RMS_CURRENT, RMS_CURRENT_A -> 0.01;
          case I2T, I2T_A2S -> 0.025;
          case VOLTAGE_DIP, START_DROP -> 0.013;
          case VOLTAGE_BEFORE, VOLTAGE_MIN -> 0.004;
          case RUN_CURRENT -> 0.02;
          case ACCELERATION_ENERGY -> 0.03;
          case BREAKAWAY_DELAY -> 0.08;
          case CONTROLLED_TIME -> 0.008;
          case STOP_TIME, STOP_90_10 -> 0.02;
          case STOP_DECELERATION -> 0.025;
          case SPEED_AT_RELEASE -> 0.02;
          case STOP_PEAK_CURRENT -> 0.03;
          case STOP_I2T -> 0.05;
        };
    double floor =
        switch (figure) {
          case START_TIME, SETTLING_TIME, CONTROLLED_TIME -> 0.02;
          case BREAKAWAY_DELAY, STOP_TIME, STOP_90_10 -> 0.05;
          case VOLTAGE_DIP, START_DROP -> 0.03;
          default -> 0;
        };
    return Math.hypot(share * value, floor);
  }
}
