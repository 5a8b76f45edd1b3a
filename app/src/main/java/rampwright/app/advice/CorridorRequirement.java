package rampwright.app.advice;

import java.util.Locale;
import rampwright.analysis.machine.Trajectory;
import rampwright.app.envelope.Corridor;
import rampwright.app.envelope.FigureKey;
import rampwright.app.envelope.Polyline;

/**
 * A corridor, held against a simulated trial.
 *
 * <p>Formula: the mean, over the course being early, in time and late (by 1.2 standard deviations,
 * weights 0.3, 0.4, 0.3: the variance of a normal one within a seventh), of the least of
 * Phi(distance / sigma) over the corridor's time, sigma^2 = (share x value)^2 + floor^2: what the
 * model leaves out moves the whole course, so that its worst instant decides. Shares: those of
 * {@link Discrepancy} for peak and start time, a little wider for a reading taken alone; floor: a
 * meter's noise. A run that is over stays at its last value.
 */
record CorridorRequirement(Corridor corridor) implements Requirement {
  private static final int INSTANTS = 90;
  private static final double CURRENT_SHARE = 0.015;
  private static final double CURRENT_FLOOR = 0.01;
  private static final double SPEED_SHARE = 0.01;
  private static final double SPEED_FLOOR_PCT = 0.3;
  private static final double TIME_SHARE = 0.03;
  private static final double TIME_FLOOR_S = 0.04;
  private static final double[] SHIFTS = {-1.2, 0, 1.2};
  private static final double[] WEIGHTS = {0.3, 0.4, 0.3};

  @Override
  public String show() {
    return String.format(
        Locale.ROOT,
        "corridor of %s over the %s, %.3g to %.3g s",
        corridor.channel().key(),
        corridor.part().key(),
        corridor.fromS(),
        corridor.toS());
  }

  @Override
  public String label() {
    return (corridor.channel() == Corridor.Channel.CURRENT_RATIO ? "current" : "speed")
        + " against its corridor over the "
        + corridor.part().key();
  }

  @Override
  public String told(Rehearsal run) {
    double value = value(run);
    return Double.isNaN(value)
        ? "not to be had"
        : Wording.number(Math.abs(value)) + " % " + (value < 0 ? "outside" : "inside");
  }

  @Override
  public String asked() {
    return "inside all the time";
  }

  /** Distance inside, percent of the bound's largest value. */
  @Override
  public double value(Rehearsal run) {
    return 100 * margin(run);
  }

  @Override
  public double needed(double value) {
    return 0;
  }

  @Override
  public boolean ofStop() {
    return corridor.part() == FigureKey.Part.STOP;
  }

  @Override
  public double margin(Rehearsal run) {
    return worst(run, 0, 0);
  }

  @Override
  public double chance(Rehearsal run, double caution) {
    if (!ofStop() && !run.run().completed()) {
      return Normal.LEAST;
    }
    double chance = 0;
    for (int k = 0; k < SHIFTS.length; k++) {
      double z = worst(run, caution, caution * SHIFTS[k]);
      chance += WEIGHTS[k] * (Double.isNaN(z) ? Normal.LEAST : Normal.below(z));
    }
    return chance;
  }

  /** Smallest distance inside: in standard deviations, or with no caution as a share of a bound. */
  private double worst(Rehearsal rehearsal, double caution, double shift) {
    Trajectory run = rehearsal.run();
    if (run.size() == 0) {
      return Double.NaN;
    }
    double origin = ofStop() ? run.instants().stopBeginS() : 0;
    if (Double.isNaN(origin)) {
      return Double.NaN;
    }
    double least = Double.POSITIVE_INFINITY;
    double from = corridor.fromS();
    double length = corridor.toS() - from;
    for (int k = 0; k <= INSTANTS; k++) {
      double at = from + length * k / INSTANTS;
      double late = shift * Math.hypot(TIME_SHARE * at, TIME_FLOOR_S);
      double value = channel(rehearsal, origin + Math.max(0, at - late));
      double scale = caution > 0 ? caution * sigma(value) : 0;
      least = Math.min(least, distance(corridor.upper(), at, value, true, scale));
      least = Math.min(least, distance(corridor.lower(), at, value, false, scale));
    }
    return least;
  }

  private static double distance(
      Polyline bound, double at, double value, boolean upper, double sigma) {
    double limit = bound.at(at, upper);
    if (Double.isNaN(limit)) {
      return Double.POSITIVE_INFINITY;
    }
    double inside = upper ? limit - value : value - limit;
    double scale = sigma > 0 ? sigma : bound.scale() > 0 ? bound.scale() : 1;
    return inside / scale;
  }

  private double sigma(double value) {
    boolean current = corridor.channel() == Corridor.Channel.CURRENT_RATIO;
    double share = (current ? CURRENT_SHARE : SPEED_SHARE) * value;
    return Math.hypot(share, current ? CURRENT_FLOOR : SPEED_FLOOR_PCT);
  }

  /** The channel at an instant of the run. */
  private double channel(Rehearsal rehearsal, double atS) {
    Trajectory run = rehearsal.run();
    int last = run.size() - 1;
    int k = run.indexAt(atS);
    double here = at(rehearsal, k);
    if (k >= last || run.timeS(k + 1) <= run.timeS(k)) {
      return here;
    }
    double share = (atS - run.timeS(k)) / (run.timeS(k + 1) - run.timeS(k));
    return here + Math.max(0, Math.min(1, share)) * (at(rehearsal, k + 1) - here);
  }

  private double at(Rehearsal rehearsal, int index) {
    if (corridor.channel() == Corridor.Channel.CURRENT_RATIO) {
      return rehearsal.run().currentRatio(index) * rehearsal.phases().highestCurrent();
    }
    double rated = 1 - rehearsal.model().plate().ratedSlip();
    return 100 * rehearsal.run().speedPu(index) / rated;
  }
}
