package rampwright.analysis.fit;

import rampwright.analysis.machine.Trajectory;

/**
 * Means of a simulated run over a short window.
 *
 * <p>A reading is a mean over the meter's window, and its time is uncertain by {@link
 * BinnedTrial.Point#reachS}: a step of current at by-passing is compared as the mean over that
 * reach, so that a residual changes smoothly as the step passes the reading.
 *
 * @param piece index of the run's piece in which the window begins
 * @param currentRatio of rated current
 * @param voltagePu line voltage where it is measured, of rated voltage
 * @param speedPu of synchronous speed
 */
record RunAverage(int piece, double currentRatio, double voltagePu, double speedPu) {

  /**
   * Over a window around a time.
   *
   * @param piece where to look for its beginning: 0, or that of an earlier window
   */
  static RunAverage around(Trajectory run, int piece, double timeS, double reachS) {
    double from = Math.max(run.timeS(0), timeS - reachS);
    int last = run.size() - 1;
    int first = piece;
    while (first < last - 1 && run.timeS(first + 1) <= from) {
      first++;
    }
    double to = Math.min(run.timeS(last), timeS + reachS);
    if (from >= to) {
      // Past the end of a simulation that failed or came to rest, its last state holds.
      return new RunAverage(
          first, run.currentRatio(last), run.measuredVoltagePu(last), run.speedPu(last));
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
      voltages += length * mix(run.measuredVoltagePu(k), run.measuredVoltagePu(k + 1), part);
      speeds += length * mix(run.speedPu(k), run.speedPu(k + 1), part);
    }
    double width = to - from;
    return new RunAverage(first, currents / width, voltages / width, speeds / width);
  }

  private static double mix(double a, double b, double part) {
    return a + part * (b - a);
  }
}
