package rampwright.app.advice;

import java.util.Random;
import java.util.function.ToDoubleBiFunction;
import rampwright.analysis.machine.RunFigure;
import rampwright.analysis.machine.Trajectory;

/**
 * A simulated run at the pace that the figures told beside it have: its start as much longer or
 * shorter as its start time is corrected and in doubt, and its stop likewise. What is between keeps
 * its length.
 */
final class PacedRun {
  private static final double QUICKEST = 0.3;
  private static final double SLOWEST = 3;

  private final Trajectory run;
  private final double startFactor;
  private final double stopFactor;

  private PacedRun(Trajectory run, double startFactor, double stopFactor) {
    this.run = run;
    this.startFactor = startFactor;
    this.stopFactor = stopFactor;
  }

  /**
   * The run of a rehearsal, its doubts drawn once.
   *
   * @param stopping figure that says how long what is shown lasts from the stop order on
   */
  static PacedRun of(Rehearsal seen, RunFigure stopping, Random random) {
    double start = factor(seen, RunFigure.START_TIME, random.nextGaussian());
    double stop = factor(seen, stopping, random.nextGaussian());
    return new PacedRun(seen.run(), start, stop);
  }

  private static double factor(Rehearsal seen, RunFigure figure, double normal) {
    double simulated = seen.figures().of(figure);
    double told = seen.of(figure) + normal * seen.sigma(figure);
    return simulated > 0 && told > 0 ? Math.max(QUICKEST, Math.min(SLOWEST, told / simulated)) : 1;
  }

  /** When it is over, s after inception; 0 for one that never began. */
  double endS() {
    int size = run.size();
    return size == 0 ? 0 : shownS(run.timeS(size - 1));
  }

  private double startS() {
    double full = run.instants().fullSpeedS();
    return Double.isNaN(full) ? 0 : full;
  }

  private double stopS() {
    double begin = run.instants().stopBeginS();
    return Double.isNaN(begin) ? Double.POSITIVE_INFINITY : begin;
  }

  private double shownS(double runS) {
    double start = startS();
    if (runS <= start) {
      return startFactor * runS;
    }
    double stop = stopS();
    double until = Math.min(runS, stop);
    return startFactor * start + until - start + stopFactor * (runS - until);
  }

  private double runS(double shownS) {
    double start = startS();
    if (shownS <= startFactor * start) {
      return shownS / startFactor;
    }
    double later = shownS - startFactor * start + start;
    double stop = stopS();
    return later <= stop ? later : stop + (later - stop) / stopFactor;
  }

  /**
   * A quantity of the run; linear between points. A run that is over stays at its last value: at
   * rest, no current.
   */
  double at(double atS, ToDoubleBiFunction<Trajectory, Integer> quantity) {
    int last = run.size() - 1;
    if (last < 0) {
      return 0;
    }
    double time = runS(atS);
    int k = Math.min(last, Math.max(0, run.indexAt(time)));
    double here = quantity.applyAsDouble(run, k);
    if (k == last || run.timeS(k + 1) <= run.timeS(k)) {
      return here;
    }
    double share =
        Math.min(1, Math.max(0, (time - run.timeS(k)) / (run.timeS(k + 1) - run.timeS(k))));
    return here + share * (quantity.applyAsDouble(run, k + 1) - here);
  }
}
