package rampwright.app.advice;

import java.util.Locale;
import rampwright.analysis.machine.RunFigure;
import rampwright.analysis.machine.Trajectory;

/** What a start takes of a rating, as a share that may not pass one. */
sealed interface RatingRequirement extends Requirement {
  /** Standard deviation of a predicted share: that of I2t. */
  double SHARE_SIGMA = 0.03;

  /** Share of the rating a start uses; NaN when the run gives none. */
  double used(Rehearsal run);

  @Override
  default boolean ofStop() {
    return false;
  }

  @Override
  default double value(Rehearsal run) {
    return 100 * used(run);
  }

  @Override
  default double needed(double value) {
    return 100;
  }

  @Override
  default String told(Rehearsal run) {
    return Wording.number(value(run)) + " %";
  }

  @Override
  default String asked() {
    return "at most 100 %";
  }

  @Override
  default double margin(Rehearsal run) {
    return 1 - used(run);
  }

  @Override
  default double chance(Rehearsal run, double caution) {
    double used = used(run);
    return Double.isNaN(used)
        ? Normal.LEAST
        : Normal.below((1 - used) / Math.max(1e-9, caution * SHARE_SIGMA * used));
  }

  /**
   * The motor's heat in one start.
   *
   * @param allowedS largest i2t over rated current squared, s
   * @param source what that rests on
   */
  record MotorHeat(double allowedS, String source) implements RatingRequirement {
    @Override
    public double used(Rehearsal run) {
      double worst = run.phases().highestCurrent();
      double mean = run.phases().meanSquareCurrent();
      // Inside a delta the windings carry more than a line shows.
      double unseen = run.model().unseenShare(run.figures().of(RunFigure.RMS_CURRENT));
      return run.of(RunFigure.I2T) * (1 + unseen) * worst * worst / Math.max(1, mean) / allowedS;
    }

    @Override
    public String label() {
      return "the motor's allowed heat used by the start";
    }

    @Override
    public String show() {
      return String.format(
          Locale.ROOT,
          "motor: I2t at most %s s of rated current in one start (%s)",
          Wording.number(allowedS),
          source);
    }
  }

  /**
   * The starter's overload.
   *
   * <p>Formula: integral of (r / X)^p / Tx dt, r = a pole's current over the starter's rated
   * current, p = 2 above X and 1 below: a thyristor's loss lies between current and current
   * squared, and each is used where it is the worse. Common practice, no source.
   *
   * @param ratedRatio the starter's rated over the motor's rated current, both of the line
   * @param overload X
   * @param overloadS Tx, s
   */
  record StarterDuty(double ratedRatio, double overload, double overloadS)
      implements RatingRequirement {
    @Override
    public double used(Rehearsal rehearsal) {
      Trajectory run = rehearsal.run();
      double until =
          run.completed() ? run.instants().fullSpeedS() : run.timeS(Math.max(0, run.size() - 1));
      double sum = 0;
      double before = 0;
      for (int k = 0; k < run.size() && run.timeS(k) <= until; k++) {
        double measured = run.currentRatio(k);
        double pole = measured * Math.sqrt(1 + rehearsal.model().unseenShare(measured));
        double share = pole * rehearsal.phases().highestCurrent() / ratedRatio / overload;
        double rate = (share > 1 ? share * share : share) / overloadS;
        if (k > 0) {
          sum += 0.5 * (before + rate) * (run.timeS(k) - run.timeS(k - 1));
        }
        before = rate;
      }
      return sum;
    }

    @Override
    public String label() {
      return "the starter's rated overload used by the start";
    }

    @Override
    public String show() {
      return String.format(
          Locale.ROOT,
          "starter: %.3g times its rated current for at most %.3g s (rating index)",
          overload,
          overloadS);
    }
  }
}
