package rampwright.analysis.fit;

import rampwright.analysis.machine.Trajectory;

/**
 * Means of a simulated run over short windows, for times that only grow.
 *
 * <p>A reading is a mean over the meter's window, and its time is uncertain by {@link
 * BinnedTrial.Point#reachS}: a step of current at by-passing is compared as the mean over that
 * reach, so that a residual changes smoothly as the step passes the reading.
 */
final class RunAverage {
  private final Trajectory run;
  private int first;
  private double current;
  private double voltage;
  private double speed;

  RunAverage(Trajectory run) {
    this.run = run;
  }

  /** Moves to a window; its middle may not lie before the last one's. */
  void around(double timeS, double reachS) {
    double from = Math.max(run.timeS(0), timeS - reachS);
    int last = run.size() - 1;
    while (first < last - 1 && run.timeS(first + 1) <= from) {
      first++;
    }
    double to = Math.min(run.timeS(last), timeS + reachS);
    if (from >= to) {
      // Past the end of a simulation that failed or came to rest, its last state holds.
      current = run.currentRatio(last);
      voltage = run.busVoltagePu(last);
      speed = run.speedPu(last);
      return;
    }
    double currents = 0;
    double voltages = 0;
    double speeds = 0;
    for (int k = first; k < last && run.timeS(k) < to; k++) {
      double begin = run.timeS(k);
      double width = run.timeS(k + 1) - begin;
      double low = Math.max(from, begin);
      double length = Math.min(to, run.timeS(k + 1)) - low;
      if (length <= 0) {
        continue;
      }
      // Linear in between: the mean of a piece is its value in the middle.
      double part = (low + 0.5 * length - begin) / width;
      currents += length * mix(run.currentRatio(k), run.currentRatio(k + 1), part);
      voltages += length * mix(run.busVoltagePu(k), run.busVoltagePu(k + 1), part);
      speeds += length * mix(run.speedPu(k), run.speedPu(k + 1), part);
    }
    current = currents / (to - from);
    voltage = voltages / (to - from);
    speed = speeds / (to - from);
  }

  double currentRatio() {
    return current;
  }

  double busVoltagePu() {
    return voltage;
  }

  double speedPu() {
    return speed;
  }

  private static double mix(double a, double b, double part) {
    return a + part * (b - a);
  }
}
