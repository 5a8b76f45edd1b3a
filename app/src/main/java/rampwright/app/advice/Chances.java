package rampwright.app.advice;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
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
  // A reference of rated torque does not pass a belief this near to it in useful time.
  private static final double NEVER_FULL = 0.995;
  // Two standard deviations of a peak that the current limit holds.
  private static final double PEAK_ROOM = 0.99;

  private final PhaseFactors phases;
  private final Shown shown;
  private final double longestSeenS;
  private final double cutAfterS;
  private final List<FigureLimit> startLimits = new ArrayList<>();
  private final List<Requirement> starts = new ArrayList<>();
  private final List<Requirement> stops = new ArrayList<>();
  private final List<String> notAssessable = new ArrayList<>();
  private final double giveUpS;
  private final int asked;
  private final double runS;
  private final double declaredV;
  private Lessons lessons = Lessons.NONE;

  Chances(
      AdviceRequest request,
      PhaseFactors phases,
      double runS,
      Shown shown,
      double longestSeenS,
      double cutAfterS) {
    this.longestSeenS = longestSeenS;
    this.cutAfterS = cutAfterS;
    this.shown = shown;
    this.phases = phases;
    this.runS = runS;
    declaredV = request.asset().supplyVoltageV();
    double longest = 40;
    for (FigureLimit limit : request.limits()) {
      RunFigure figure = limit.figure();
      if (figure == null) {
        notAssessable.add(
            String.format(Locale.ROOT, "%s: the model does not give this figure", limit.key()));
        continue;
      }
      add(new FigureRequirement(limit, figure));
      Double max = limit.max();
      if (figure == RunFigure.START_TIME && max != null) {
        longest = Math.max(5, 1.5 * max + 2);
      }
      if (!figure.ofStop()) {
        startLimits.add(limit);
      }
    }
    request.corridors().forEach(corridor -> add(new CorridorRequirement(corridor)));
    asked = starts.size() + stops.size();
    request.ratings().requirements().forEach(this::add);
    giveUpS = longest;
  }

  private void add(Requirement requirement) {
    (requirement.ofStop() ? stops : starts).add(requirement);
  }

  /** Whether the envelope asks anything the model can tell. */
  boolean isAsked() {
    return asked > 0;
  }

  /** What a start is held against, ratings included. */
  List<Requirement> starts() {
    return starts;
  }

  /** What a stop is held against. */
  List<Requirement> stops() {
    return stops;
  }

  /** The limits on figures of the start. */
  List<FigureLimit> startLimits() {
    return startLimits;
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
                  ? max / model.measuredRatedCurrentA()
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

  /** A run as requirements look at it. */
  Rehearsal rehearsal(Trajectory run, MachineModel model, StarterSettings settings) {
    return new Rehearsal(
        run,
        RunFigures.of(run, model, phases, declaredV),
        model,
        phases,
        shown,
        settings,
        lessons.of(model));
  }

  /** Takes in what the trials say of the models; rehearsals made before do not know it. */
  void learn(Lessons lessons) {
    this.lessons = lessons;
  }

  /** I2t over rated current squared of a start with these settings, s. */
  double heatOfStart(MachineModel model, StarterSettings settings) {
    return RunFigures.of(start(model, settings), model, phases).of(RunFigure.I2T);
  }

  /** A simulated start that has not reached full speed by then counts as failed, s. */
  double giveUpS() {
    return giveUpS;
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
        inTime(run, model, settings) * product(starts, rehearsal(run, model, settings), caution);
    // While little is known, reaching full speed at all is worth something: it tells the most.
    return eager ? COMPLETING + (1 - COMPLETING) * inside : inside;
  }

  /** Chance of the stop's limits on one model. */
  double ofStop(MachineModel model, StarterSettings settings, double caution) {
    Trajectory run = stop(model, settings);
    return product(stops, rehearsal(run, model, settings), caution);
  }

  /**
   * Chance that the starter's own limit on the starting time, which is no setting we know, does not
   * cut a start before it is by-passed. It is sure up to the longest start seen; common practice
   * sets it at 30 s or more, seldom above a minute. Where a start was cut, nothing lasts longer.
   */
  private double inTime(Trajectory run, MachineModel model, StarterSettings settings) {
    double until = Math.max(run.instants().fullSpeedS(), bypassS(run, model, settings));
    if (until > cutAfterS - CUT_MARGIN_S || Double.isInfinite(until)) {
      return AFTER_THE_CUT;
    }
    double over = until - Math.max(SURE_START_S, longestSeenS);
    return over <= 0 ? 1 : Math.exp(-LATE_PER_S * over);
  }

  /**
   * When full voltage is reached, s. A voltage ramp gets there at its end; a torque ramp when its
   * reference passes what the starter believes the load takes, and never when that is above rated
   * torque, which is where the reference ends.
   */
  static double bypassS(Trajectory run, MachineModel model, StarterSettings settings) {
    if (!Double.isNaN(run.instants().bypassS())) {
      return run.instants().bypassS();
    }
    double pulse = settings.hasPulse() ? settings.pulseS() : 0;
    if (settings.control() == ControlMode.VOLTAGE_RAMP) {
      return pulse + settings.rampUpS();
    }
    int last = run.size() - 1;
    double current = run.currentRatio(last);
    double believed =
        model.starter().torqueGainAt(run.speedPu(last)) * run.loadTorquePu(last)
            + model.starter().torqueOffset()
            - model.starter().lossTorque() * current * current;
    double first = settings.initialTorquePct() / 100;
    return believed > NEVER_FULL
        ? Double.POSITIVE_INFINITY
        : pulse + settings.rampUpS() * (believed - first) / Math.max(1e-3, 1 - first);
  }

  private static double product(List<Requirement> requirements, Rehearsal run, double caution) {
    double chance = 1;
    for (Requirement requirement : requirements) {
      chance *= Math.max(requirement.chance(run, caution), Normal.LEAST);
    }
    return chance;
  }
}
