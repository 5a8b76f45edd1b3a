package rampwright.app.advice;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.hipparchus.special.Erf;
import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.RunFigure;
import rampwright.analysis.machine.RunFigures;
import rampwright.analysis.machine.RunFigures.PhaseFactors;
import rampwright.analysis.machine.RunPlan;
import rampwright.analysis.machine.RunSimulator;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.Trajectory;

/**
 * The chance that settings meet the limits, on one model or on many.
 *
 * <p>Formula: for one model, the product over the limits of the normal probability that the figure
 * with its discrepancy lies inside; over many models, their mean. A start that fails has a chance
 * of next to nothing that still grows with how far it came, so that a search can climb.
 */
final class Chances {
  private static final double LONGEST_STOP_S = 200;
  private static final double SURE_START_S = 26;
  private static final double LATE_PER_S = 0.025;
  private static final double CUT_MARGIN_S = 0.5;
  private static final double AFTER_THE_CUT = 0.02;
  private static final double COMPLETING = 0.1;
  // Two standard deviations of a peak that the current limit holds.
  private static final double PEAK_ROOM = 0.99;

  private final PhaseFactors phases;
  private final Set<ControlMode> tried;
  private final double longestSeenS;
  private final double cutAfterS;
  private final List<FigureLimit> startLimits = new ArrayList<>();
  private final List<FigureLimit> stopLimits = new ArrayList<>();
  private final List<String> notAssessable = new ArrayList<>();
  private final double giveUpS;
  private final double runS;

  Chances(
      List<FigureLimit> limits,
      PhaseFactors phases,
      double runS,
      Set<ControlMode> tried,
      double longestSeenS,
      double cutAfterS) {
    this.longestSeenS = longestSeenS;
    this.cutAfterS = cutAfterS;
    this.tried = tried;
    this.phases = phases;
    this.runS = runS;
    double longest = 40;
    for (FigureLimit limit : limits) {
      RunFigure figure = limit.figure();
      if (figure == null) {
        notAssessable.add(
            String.format(Locale.ROOT, "%s: the model does not give this figure", limit.key()));
      } else if (figure.ofStop()) {
        stopLimits.add(limit);
      } else {
        startLimits.add(limit);
        Double max = limit.max();
        if (figure == RunFigure.START_TIME && max != null) {
          longest = Math.max(5, 1.5 * max + 2);
        }
      }
    }
    giveUpS = longest;
  }

  List<FigureLimit> startLimits() {
    return startLimits;
  }

  List<FigureLimit> stopLimits() {
    return stopLimits;
  }

  List<String> notAssessable() {
    return notAssessable;
  }

  /**
   * Largest current limit at which the limit itself keeps the peak; infinite without a peak limit.
   */
  double limitForPeak(MachineModel model) {
    double cap = Double.POSITIVE_INFINITY;
    for (FigureLimit limit : startLimits) {
      Double max = limit.max();
      if (max == null) {
        continue;
      }
      double ratio =
          limit.figure() == RunFigure.PEAK_CURRENT
              ? max
              : limit.figure() == RunFigure.PEAK_CURRENT_A
                  ? max / model.plate().ratedCurrentA()
                  : Double.POSITIVE_INFINITY;
      cap =
          Math.min(cap, PEAK_ROOM * ratio / phases.highestCurrent() / model.starter().limitGain());
    }
    return cap;
  }

  /** The start alone. */
  Trajectory start(MachineModel model, StarterSettings settings) {
    return RunSimulator.run(model, settings, new RunPlan(Double.NaN, 0.1, giveUpS, false, 0));
  }

  /** The stop alone, from steady running. */
  Trajectory stop(MachineModel model, StarterSettings settings) {
    return RunSimulator.runDown(model, settings, LONGEST_STOP_S);
  }

  /** Start, run and stop. */
  Trajectory whole(MachineModel model, StarterSettings settings) {
    return RunSimulator.run(
        model, settings, new RunPlan(Double.NaN, runS, 90, true, LONGEST_STOP_S));
  }

  RunFigures figures(Trajectory run, MachineModel model) {
    return RunFigures.of(run, model, phases);
  }

  /** How the phases differ from their mean. */
  PhaseFactors phases() {
    return phases;
  }

  /**
   * Chance of the start's limits on one model.
   *
   * @param caution factor on the discrepancy's standard deviation
   * @param eager whether reaching full speed counts for something by itself
   */
  double ofStart(MachineModel model, StarterSettings settings, double caution, boolean eager) {
    Trajectory run = start(model, settings);
    if (!run.completed()) {
      int last = run.size() - 1;
      double push = run.torquePu(last) / Math.max(1e-3, run.loadTorquePu(last));
      double progress = 1 + Math.min(1, push) + 10 * run.speedPu(last);
      return progress * (eager ? 1e-4 : 1e-9);
    }
    double inside =
        inTime(run, settings)
            * product(startLimits, figures(run, model), limited(run), tried(settings), caution);
    // While little is known, reaching full speed at all is worth something: it tells the most.
    return eager ? COMPLETING + (1 - COMPLETING) * inside : inside;
  }

  /** Chance of the stop's limits on one model. */
  double ofStop(MachineModel model, StarterSettings settings, double caution) {
    Trajectory run = stop(model, settings);
    return product(stopLimits, figures(run, model), false, true, caution);
  }

  /**
   * Chance that the starter's own limit on the starting time, which is no setting we know, does not
   * cut a start before it is by-passed. It is sure up to the longest start seen; common practice
   * sets it at 30 s or more, seldom above a minute. Where a start was cut, nothing lasts longer.
   */
  private double inTime(Trajectory run, StarterSettings settings) {
    double bypass = run.instants().bypassS();
    double until =
        Double.isNaN(bypass)
            ? Math.max(run.instants().fullSpeedS(), settings.rampUpS() + settings.pulseS())
            : bypass;
    if (until > cutAfterS - CUT_MARGIN_S) {
      return AFTER_THE_CUT;
    }
    double over = until - Math.max(SURE_START_S, longestSeenS);
    return over <= 0 ? 1 : Math.exp(-LATE_PER_S * over);
  }

  /** Whether a completed trial had this kind of ramp. */
  boolean tried(StarterSettings settings) {
    return tried.contains(settings.control());
  }

  static boolean limited(Trajectory run) {
    return run.limitedShare() > 0.02;
  }

  private static double product(
      List<FigureLimit> limits,
      RunFigures figures,
      boolean limited,
      boolean tried,
      double caution) {
    double chance = 1;
    for (FigureLimit limit : limits) {
      RunFigure figure = limit.figure();
      if (figure == null) {
        continue;
      }
      double value = figures.of(figure);
      if (Double.isNaN(value)) {
        chance *= 1e-6;
        continue;
      }
      double sigma = Math.max(1e-9, caution * Discrepancy.sigma(figure, value, limited, tried));
      double inside = 1;
      Double max = limit.max();
      Double min = limit.min();
      if (max != null) {
        inside = below((max - value) / sigma);
      }
      if (min != null) {
        inside = Math.min(inside, below((value - min) / sigma));
      }
      chance *= Math.max(inside, 1e-6);
    }
    return chance;
  }

  /** Normal distribution function, with tails that never vanish, for a search to climb on. */
  private static double below(double z) {
    if (z < -4) {
      return 3e-5 / (1 + (z + 4) * (z + 4));
    }
    return z > 6 ? 1 : 0.5 * Erf.erfc(-z / Math.sqrt(2));
  }
}
