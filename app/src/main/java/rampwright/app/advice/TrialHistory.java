package rampwright.app.advice;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import rampwright.analysis.fit.TrialObservation;
import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.RunFigures.PhaseFactors;
import rampwright.analysis.machine.StarterSettings;

/** What the trials so far show by themselves, without a model. */
final class TrialHistory {
  /** How long a motor is left running in a trial, s. */
  static final double USUAL_RUN_S = 4.5;

  private static final double LEAST_OWN_LIMIT_S = 25;
  private static final int SPEAKS_ALONE = 3;
  private static final double MUCH_THE_SAME = 0.9;

  private final AdviceRequest request;
  private final List<TrialObservation> trials = new ArrayList<>();

  TrialHistory(AdviceRequest request) {
    this.request = request;
    for (AdviceRequest.Trial trial : request.trials()) {
      trials.add(trial.observation());
    }
  }

  List<TrialObservation> observations() {
    return trials;
  }

  /** What the starts that were completed have shown. */
  Shown shown() {
    EnumSet<ControlMode> ramps = EnumSet.noneOf(ControlMode.class);
    boolean shaft = false;
    for (TrialObservation trial : trials) {
      if (trial.end() == TrialObservation.End.COMPLETED) {
        ramps.add(trial.settings().control());
        shaft = shaft || trial.speedRpm() != null;
      }
    }
    return new Shown(ramps, shaft);
  }

  /** How long the longest start so far was fed, less a few seconds of run. */
  double longestS() {
    double out = 0;
    for (TrialObservation trial : trials) {
      double fed =
          Double.isNaN(trial.stopBeginS())
              ? trial.releaseS() - trial.inceptionS()
              : trial.stopBeginS() - trial.inceptionS() - USUAL_RUN_S;
      boolean cut = trial.end() == TrialObservation.End.FAILED;
      out = Double.isNaN(fed) ? out : Math.max(out, cut ? 0.95 * fed : fed);
    }
    return out;
  }

  /**
   * When the starter itself gave a start up, s after inception; infinite when it never did. A start
   * that failed sooner may have been cut by a person.
   */
  double cutAfterS() {
    double out = Double.POSITIVE_INFINITY;
    for (AdviceRequest.Trial trial : request.trials()) {
      TrialObservation o = trial.observation();
      double fed = o.releaseS() - o.inceptionS();
      boolean failed = o.end() == TrialObservation.End.FAILED && fed >= LEAST_OWN_LIMIT_S;
      if ((failed || trial.cutBeforeBypass()) && !Double.isNaN(fed)) {
        out = Math.min(out, fed);
      }
    }
    return out;
  }

  /** Whether a start was completed and then stopped in much the same way. */
  boolean stopMade(StarterSettings settings) {
    return trials.stream()
        .anyMatch(
            trial ->
                trial.end() == TrialObservation.End.COMPLETED
                    && SettingDistance.stops(trial.settings(), settings) > MUCH_THE_SAME);
  }

  /** Mean source voltage, the declared one where none was measured, V. */
  double sourceV() {
    double sum = 0;
    int count = 0;
    for (TrialObservation trial : trials) {
      if (!Double.isNaN(trial.sourceVoltageV())) {
        sum += trial.sourceVoltageV();
        count++;
      }
    }
    return count == 0 ? request.asset().supplyVoltageV() : sum / count;
  }

  /** How the phases differ from their mean, by the trials; usual values before the first. */
  PhaseFactors phases() {
    if (trials.isEmpty()) {
      return new PhaseFactors(1.012, 1.0002, 1.003);
    }
    double highest = 0;
    double squares = 0;
    double dip = 0;
    for (TrialObservation trial : trials) {
      highest += trial.phases().highestCurrent() / trials.size();
      squares += trial.phases().meanSquareCurrent() / trials.size();
      dip += trial.phases().worstDip() / trials.size();
    }
    return new PhaseFactors(highest, squares, dip);
  }

  /**
   * How far the best trial so far missed: the largest shortfall over its limits, each a share of
   * the limit. A limit whose figure could not be had does not count at first; from the third trial
   * on it counts as missed by its own size, since then the model alone must speak for it.
   */
  double bestMiss() {
    double unseen = trials.size() < SPEAKS_ALONE ? 0 : 1;
    double best = Double.POSITIVE_INFINITY;
    for (AdviceRequest.Trial trial : request.trials()) {
      double worst = trial.observation().end() == TrialObservation.End.FAILED ? 1 : 0;
      for (FigureLimit limit : request.limits()) {
        Double value = trial.figures().get(limit.key());
        double miss = value == null ? unseen : -limit.margin(value);
        worst = Math.max(worst, miss);
      }
      if (!Double.isNaN(trial.corridorMargin())) {
        worst = Math.max(worst, -trial.corridorMargin());
      }
      best = Math.min(best, worst);
    }
    return best;
  }

  /** Whether a start was completed, or so many failed that this tells enough. */
  boolean completedOnce() {
    for (AdviceRequest.Trial trial : request.trials()) {
      if (trial.observation().end() == TrialObservation.End.COMPLETED) {
        return true;
      }
    }
    return request.trials().size() >= 3;
  }
}
