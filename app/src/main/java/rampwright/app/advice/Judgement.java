package rampwright.app.advice;

import rampwright.analysis.fit.FitResult;
import rampwright.analysis.fit.TrialObservation;
import rampwright.analysis.machine.StarterSettings;

/** What the trials allow to be said: keep, or that no settings can meet the limits. */
final class Judgement {
  /** Chance from which what no figure shows is taken to be kept. */
  static final double SURE = 0.8;

  // Trials that met everything meet it again far more often than told: those told 0.26 to 0.6 on
  // nine days in ten and more (docs, exam.md).
  private static final double KEEP_CHANCE = 0.2;
  private static final double KEEP_BELOW_BEST = 0.12;
  private static final double KEEP_MARGIN = 0.01;
  private static final double HOPELESS = 0.03;
  private static final double HOPELESS_CAUTIOUS = 0.06;
  private static final double HOPELESS_LATER = 2;
  // A trial this near to its limits speaks against a model that calls them out of reach.
  private static final double NEAR = 0.08;
  private static final double NEAR_LATER = 0.04;
  // One this far from them speaks for it.
  private static final double FAR = 0.15;
  private static final double HOPELESS_FAR = 3;
  private static final int FEW_TRIALS = 4;
  // Whoever saw all that is asked in so many trials and is still told no more than one in eight
  // has been told the most that there is.
  private static final int ENOUGH_TRIALS = 3;
  private static final double ONE_IN_EIGHT = 0.12;
  private static final double ONE_IN_FIVE = 0.2;
  private static final double A_TOUCH = 0.02;
  private static final double ROUGHLY_EXPLAINED = 2.5;
  private static final double VERY_CAUTIOUS = 4;

  private final AdviceRequest request;
  private final TrialHistory history;
  private final FitResult fit;
  private final Belief belief;

  Judgement(AdviceRequest request, TrialHistory history, FitResult fit, Belief belief) {
    this.request = request;
    this.history = history;
    this.fit = fit;
    this.belief = belief;
  }

  /**
   * Whether even figures twice as uncertain as thought leave next to no chance, and the trials bear
   * it out: one was made since the first, and none came near.
   */
  boolean hopeless(StarterSettings proposed, double chance) {
    int trials = request.trials().size();
    if (trials >= ENOUGH_TRIALS
        && allMeasured()
        && history.bestMiss() > A_TOUCH
        && isHopeless(proposed, chance, ONE_IN_EIGHT, ONE_IN_FIVE)) {
      return true;
    }
    if (trials < 2 || history.bestMiss() < (trials < FEW_TRIALS ? NEAR : NEAR_LATER)) {
      return false;
    }
    double much = trials < 3 ? 1 : history.bestMiss() > FAR ? HOPELESS_FAR : HOPELESS_LATER;
    return isHopeless(proposed, chance, much * HOPELESS, much * HOPELESS_CAUTIOUS);
  }

  private boolean isHopeless(
      StarterSettings proposed, double chance, double most, double mostCautious) {
    return history.completedOnce()
        && chance < most
        // Weighed by whether limits like these can be met at all, there must be no more hope.
        && belief.told(proposed) < ONE_IN_EIGHT
        && belief.chance(proposed, 2) < mostCautious
        && (fit.status() == FitResult.Status.FITTED || isHopelessAnyway(proposed));
  }

  /** Whether a model that explains the trials but roughly is far enough from any hope. */
  private boolean isHopelessAnyway(StarterSettings proposed) {
    return request.trials().size() >= ENOUGH_TRIALS
        && fit.residual() < ROUGHLY_EXPLAINED
        && history.bestMiss() > FAR
        && belief.chance(proposed, VERY_CAUTIOUS) < HOPELESS;
  }

  boolean allMeasured() {
    AdviceRequest.Trial last = request.trials().get(request.trials().size() - 1);
    return request.limits().stream().allMatch(limit -> isSeen(last, limit));
  }

  private static boolean isSeen(AdviceRequest.Trial trial, FigureLimit limit) {
    return trial.figures().containsKey(limit.key())
        && !DatedFigures.isExtremeHidden(trial, limit.key());
  }

  /** Whether a limit on the stop has no figure in the last trial. */
  boolean stopUnseen() {
    AdviceRequest.Trial last = request.trials().get(request.trials().size() - 1);
    return request.limits().stream()
        .anyMatch(
            limit ->
                limit.figure() != null
                    && limit.figure().ofStop()
                    && !last.figures().containsKey(limit.key()));
  }

  /**
   * Whether the last trial may be kept as it was.
   *
   * @param present settings now on the starter
   * @param now chance of the next trial with them
   * @param bestChance the largest chance found
   */
  boolean keeps(StarterSettings present, double now, double bestChance) {
    AdviceRequest.Trial last = request.trials().get(request.trials().size() - 1);
    if (!last.observation().settings().equals(present)) {
      return false;
    }
    boolean completed = last.observation().end() == TrialObservation.End.COMPLETED;
    if (!completed || last.cutBeforeBypass()) {
      return false;
    }
    for (FigureLimit limit : request.limits()) {
      Double value = last.figures().get(limit.key());
      // What could not be measured is left to the chance, which the model gives.
      if (value != null
          && isSeen(last, limit)
          && (!limit.met(value) || limit.margin(value) < KEEP_MARGIN)) {
        return false;
      }
    }
    if (!(last.corridorMargin() >= KEEP_MARGIN)) {
      return false;
    }
    // Near the best is not enough where part of what is asked was never seen.
    return now >= (allMeasured() ? Math.min(KEEP_CHANCE, bestChance - KEEP_BELOW_BEST) : SURE);
  }
}
