package rampwright.analysis.fit;

import java.util.Arrays;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.RunSimulator;
import rampwright.analysis.machine.Trajectory;

/**
 * How far a simulated trial is off an observed one, in standard deviations, made robust.
 *
 * <p>Formula: pseudo-Huber, r' = sign(r) c sqrt(2 (sqrt(1 + r^2/c^2) - 1)) with c = 2.5, so that a
 * sum of squares grows linearly for what the model cannot explain.
 *
 * <p>Shape: three residuals a point (current, voltage, speed; zero where there is none), then the
 * summary.
 */
final class TrialResiduals {
  private static final double CORNER = 2.5;
  // Model errors are alike over a whole trial and from one channel to the next, so that fewer
  // points are independent than the stretches' counts say. Set by how often the truth of a trial
  // that was not fitted lies in its predicted range (module docs, fit.md).
  private static final double ALIKE = 1.5;
  private static final int CHANNELS = 3;
  private static final int SUMMARY = 8;
  private static final double HEAT_SIGMA = 0.008;
  private static final double PEAK_SIGMA = 0.005;
  private static final double DIP_SIGMA = 0.012;
  private static final double RELEASE_SIGMA = 0.012;
  private static final double REST_SIGMA = 0.02;

  private final BinnedTrial trial;

  TrialResiduals(BinnedTrial trial) {
    this.trial = trial;
  }

  int size() {
    return CHANNELS * trial.points.length + SUMMARY;
  }

  /** Writes the residuals of a model into an array from an index on. */
  void into(MachineModel model, double stopShiftS, double wide, double[] out, int from) {
    Arrays.fill(out, from, from + size(), 0);
    Trajectory run = RunSimulator.run(model, trial.acted(), trial.plan(stopShiftS));
    boolean agrees = run.completed() == trial.completed;
    double end = run.instants().endS();
    int row = from;
    double release = run.instants().releaseS();
    int piece = 0;
    for (BinnedTrial.Point point : trial.points) {
      double time = point.timeS();
      boolean known = agrees || time <= end;
      if (known) {
        // What comes after current has ceased is no part of a reading before.
        double reach = time < release ? Math.min(point.reachS(), release - time) : point.reachS();
        RunAverage average = RunAverage.around(run, piece, time, reach);
        piece = average.piece();
        if (!Double.isNaN(point.current()) && !(time > release)) {
          out[row] = soft((average.currentRatio() - point.current()) / point.currentSigma());
        }
        if (!Double.isNaN(point.voltage()) && !(time > release)) {
          out[row + 1] = soft((average.voltagePu() - point.voltage()) / point.voltageSigma());
        }
        if (!Double.isNaN(point.speed())) {
          out[row + 2] = soft((average.speedPu() - point.speed()) / point.speedSigma());
        }
      }
      row += CHANNELS;
    }
    summary(run, out, row);
    for (int k = from; wide > 1 && k < from + size(); k++) {
      out[k] = widened(out[k], wide);
    }
  }

  private void summary(Trajectory run, double[] out, int row) {
    if (trial.completed && !run.completed()) {
      int last = run.size() - 1;
      out[row] = 12 + 40 * (1 - run.speedPu(last)) + 10 * deficit(run);
      return;
    }
    if (!trial.completed && run.completed()) {
      out[row] = 4 + 20 * Math.log(trial.cutS / run.instants().fullSpeedS());
    } else if (!Double.isNaN(trial.halfFallS)) {
      double fall = lastFall(run);
      if (!Double.isNaN(fall)) {
        out[row] = soft(Math.log(fall / trial.halfFallS) / trial.halfFallSigma);
      }
    }
    if (!Double.isNaN(trial.fullSpeedS)) {
      out[row + 1] =
          soft(Math.log(run.instants().fullSpeedS() / trial.fullSpeedS) / trial.fullSpeedSigma);
    }
    if (!Double.isNaN(trial.turnedS)) {
      double sigma = Math.hypot(0.02 * trial.turnedS, 0.5 * trial.trial.intervalS() + 0.02);
      out[row + 7] = soft((turned(run) - trial.turnedS) / sigma);
    }
    double heat = squares(run, trial.heatUntilS);
    if (trial.heat > 0 && heat > 0) {
      out[row + 2] = soft(Math.log(heat / trial.heat) / HEAT_SIGMA);
    }
    extremes(run, out, row + 3);
    if (!Double.isNaN(run.instants().stopBeginS()) && !Double.isNaN(trial.trial.releaseS())) {
      stop(run, out, row + 5);
    }
  }

  /** How much torque is lacking where a simulated start stands still or sticks, as a logarithm. */
  private static double deficit(Trajectory run) {
    int last = run.size() - 1;
    double load = Math.max(run.loadTorquePu(last), 1e-3);
    return Math.max(0, Math.log(load / Math.max(1e-3, run.torquePu(last))));
  }

  private void extremes(Trajectory run, double[] out, int row) {
    double peak = 0;
    double lowest = Double.POSITIVE_INFINITY;
    for (int k = 0; k < run.size() && run.timeS(k) <= trial.cutS; k++) {
      peak = Math.max(peak, run.currentRatio(k));
      lowest = Math.min(lowest, run.measuredVoltagePu(k));
    }
    if (trial.peak > 0.2) {
      out[row] = soft(Math.log(peak / trial.peak) / PEAK_SIGMA);
    }
    double observedDip = trial.sourceVoltagePu - trial.lowestVoltage;
    if (observedDip > 0.004) {
      double dip = trial.sourceVoltagePu - lowest;
      out[row + 1] = soft((dip - observedDip) / Math.hypot(DIP_SIGMA * observedDip, 0.0012));
    }
  }

  private void stop(Trajectory run, double[] out, int row) {
    double begin = run.instants().stopBeginS();
    double observed = trial.trial.releaseS() - trial.trial.inceptionS() - begin;
    double timing = trial.trial.intervalS() + 0.02;
    if (observed > timing) {
      double controlled = run.instants().releaseS() - begin;
      double sigma = Math.hypot(RELEASE_SIGMA * observed, timing);
      out[row] = soft((controlled - observed) / sigma);
    }
    double rest = trial.restS - begin;
    double simulated = run.instants().restS() - begin;
    if (rest > 0 && simulated > 0) {
      out[row + 1] = soft(Math.log(simulated / rest) / Math.hypot(REST_SIGMA, 2 * timing / rest));
    }
  }

  private double turned(Trajectory run) {
    for (int k = 1; k < run.size(); k++) {
      double after = run.speedPu(k);
      if (after > BinnedTrial.TURNED_SPEED) {
        double before = run.speedPu(k - 1);
        double part = (BinnedTrial.TURNED_SPEED - before) / (after - before);
        return run.timeS(k - 1) + part * (run.timeS(k) - run.timeS(k - 1));
      }
    }
    return trial.cutS;
  }

  private double lastFall(Trajectory run) {
    double level = trial.halfFallLevel;
    double found = Double.NaN;
    for (int k = 1; k < run.size() && run.timeS(k) <= trial.cutS; k++) {
      double before = run.currentRatio(k - 1);
      double after = run.currentRatio(k);
      if (before >= level && after < level) {
        found =
            run.timeS(k - 1)
                + (run.timeS(k) - run.timeS(k - 1)) * (before - level) / (before - after);
      }
    }
    return found;
  }

  private static double squares(Trajectory run, double until) {
    double sum = 0;
    for (int k = 1; k < run.size() && run.timeS(k - 1) < until; k++) {
      double width = Math.min(until, run.timeS(k)) - run.timeS(k - 1);
      double a = run.currentRatio(k - 1);
      double b = run.currentRatio(k);
      sum += width * (a * a + a * b + b * b) / 3;
    }
    return sum;
  }

  /** The residual as it were with standard deviations that many times as large. */
  private static double widened(double soft, double wide) {
    double half = 0.5 * soft * soft / (CORNER * CORNER) + 1;
    double q = Math.sqrt(Math.max(0, half * half - 1)) / wide;
    return Math.signum(soft) * CORNER * Math.sqrt(2 * (Math.sqrt(1 + q * q) - 1));
  }

  private static double soft(double off) {
    double r = off / ALIKE;
    if (!(Math.abs(r) < 1e6)) {
      // A simulation that broke down is as bad as anything.
      return 60;
    }
    double q = r / CORNER;
    return Math.signum(r) * CORNER * Math.sqrt(2 * (Math.sqrt(1 + q * q) - 1));
  }
}
