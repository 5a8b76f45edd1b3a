package rampwright.app.advice;

import rampwright.analysis.machine.RunFigure;

/**
 * How far a figure of the right parameters may still be off the machine: what the model leaves out
 * and the meter's gain. Standard deviations; measured on assets whose truth is known (module docs
 * of analysis, fit.md).
 */
final class Discrepancy {
  // What a kind of ramp nobody has tried on this asset adds, as a share.
  private static final double UNTRIED = 0.02;

  // What a stop that nobody has seen adds: the load at low speed has a shape of its own, and the
  // current of a start tells next to nothing of it (exam.md, how well a fit predicts).
  private static final double UNSEEN_TIME = 0.14;
  private static final double UNSEEN_FALL = 0.13;

  private Discrepancy() {}

  /**
   * Standard deviation of a figure's discrepancy, in the figure's unit.
   *
   * @param value predicted value
   * @param limited whether the current limit rules part of the start, which pins the peak
   * @param tried whether a trial with this kind of ramp is among those fitted
   * @param shaft whether a trial showed the shaft's speed
   */
  static double sigma(
      RunFigure figure, double value, boolean limited, boolean tried, boolean shaft) {
    double untried = tried || figure.ofStop() ? 0 : UNTRIED;
    double share =
        switch (figure) {
          case START_TIME, SETTLING_TIME -> 0.025 + 3 * untried;
          case PEAK_CURRENT, PEAK_CURRENT_A -> limited ? 0.005 : 0.011 + untried;
          case RMS_CURRENT, RMS_CURRENT_A -> 0.01;
          case I2T, I2T_A2S -> 0.025 + 2 * untried;
          case VOLTAGE_DIP, START_DROP -> limited ? 0.013 : 0.013 + untried;
          case VOLTAGE_BEFORE, VOLTAGE_MIN -> 0.004;
          case RUN_CURRENT, APPARENT_POWER -> 0.02;
          // Iron loss, some 1 to 2 % of rated power, is not in the circuit; from memory.
          case ACTIVE_POWER, POWER_FACTOR -> 0.03;
          case REACTIVE_POWER -> 0.04;
          // A slow rise back through 92 %: a per cent of voltage is several per cent of time.
          case DIP_DURATION -> 0.06;
          case ACCELERATION_ENERGY -> 0.03;
          case BREAKAWAY_DELAY -> 0.08;
          case CONTROLLED_TIME -> 0.008;
          case STOP_TIME, STOP_90_10, PIPE_PERIODS -> shaft ? 0.02 : UNSEEN_TIME;
          case STOP_DECELERATION -> shaft ? 0.025 : UNSEEN_FALL;
          case SPEED_AT_RELEASE -> 0.02;
          case STOP_PEAK_CURRENT -> 0.03;
          case STOP_I2T -> 0.05;
          // Friction, branches and the valve's own closing are not in the model; common practice.
          case PRESSURE_PEAK -> 0.2;
        };
    double floor =
        switch (figure) {
          case START_TIME, SETTLING_TIME, CONTROLLED_TIME -> 0.02;
          case BREAKAWAY_DELAY, STOP_TIME, STOP_90_10, DIP_DURATION -> 0.05;
          case VOLTAGE_DIP, START_DROP -> 0.03;
          default -> 0;
        };
    return Math.hypot(share * value, floor);
  }
}
