package rampwright.app.advice;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.RealVector;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.fit.TrialObservation;
import rampwright.analysis.machine.RunFigure;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.StopMode;

/**
 * How far a model is off each figure of the trials made, and what that says of settings near to
 * theirs.
 *
 * <p>Formula: the logarithm of measured over predicted is a Gaussian process over the settings with
 * zero mean, the standard deviation of {@link Discrepancy} times a factor, correlation {@link
 * SettingDistance}, and {@value #ALONE} of it more that is a trial's own, the uncertainty of the
 * measured figure besides. The factor squared is (n0 + sum of squared misses over what is expected
 * of them) / (n0 + n), n0 = {@value #BELIEF}, and never below one: an asset on which the best model
 * misses is trusted less everywhere. Mean and variance at new settings are the usual ones of
 * kriging, with a trial's own on top. Source: M. C. Kennedy and A. O'Hagan, Bayesian calibration of
 * computer models, J. R. Statist. Soc. B 63 (2001), section 4, from memory. What differs from day
 * to day in load, voltage and breakaway is no part of this: the models to which it is applied
 * differ by it.
 *
 * <p>Range: a shift of at most {@value #MOST} either way; more is a trial that was something else.
 */
final class Experience {
  /** Nothing tried, nothing learnt. */
  static final Experience NONE = new Experience(Map.of());

  private static final double BELIEF = 3;
  private static final double MOST = 0.5;

  /** What a single trial is off by alone, as a share of what all of them are. */
  private static final double ALONE = 0.3;

  private record Seen(StarterSettings settings, double off, double share, double noise) {}

  private record Learnt(
      List<Seen> seen, double factor, CholeskyDecomposition cover, RealVector pull) {}

  private final Map<RunFigure, Learnt> learnt;

  private Experience(Map<RunFigure, Learnt> learnt) {
    this.learnt = learnt;
  }

  /**
   * What the trials tell.
   *
   * @param trials trials so far
   * @param rehearsals of each with its own settings on the model
   */
  static Experience of(List<AdviceRequest.Trial> trials, List<Rehearsal> rehearsals) {
    return of(trials, rehearsals, null);
  }

  /**
   * What the trials tell of another model than the most likely one. How far a model can be trusted
   * is told by the one that fits best: a draw that fits badly is a bad draw, no reason for doubt.
   */
  Experience ofDraw(List<AdviceRequest.Trial> trials, List<Rehearsal> rehearsals) {
    return of(trials, rehearsals, this);
  }

  private static Experience of(
      List<AdviceRequest.Trial> trials, List<Rehearsal> rehearsals, @Nullable Experience ofBest) {
    Map<RunFigure, Learnt> learnt = new EnumMap<>(RunFigure.class);
    for (RunFigure figure : RunFigure.values()) {
      List<Seen> seen = new ArrayList<>();
      for (int k = 0; k < trials.size(); k++) {
        Seen one = seen(figure, trials.get(k), rehearsals.get(k));
        if (one != null) {
          seen.add(one);
        }
      }
      if (!seen.isEmpty()) {
        Learnt best = ofBest == null ? null : ofBest.learnt.get(figure);
        learnt.put(figure, learn(figure, seen, best == null ? factor(seen) : best.factor));
      }
    }
    return new Experience(learnt);
  }

  private static @Nullable Seen seen(
      RunFigure figure, AdviceRequest.Trial trial, Rehearsal rehearsal) {
    TrialObservation observed = trial.observation();
    Double measured = trial.figures().get(figure.key());
    double predicted = rehearsal.figures().of(figure);
    if (measured == null
        || !(measured > 0)
        || !(predicted > 0)
        || observed.end() != TrialObservation.End.COMPLETED
        || !rehearsal.run().completed()
        || (figure.ofStop() && notLed(observed))
        || DatedFigures.hangs(trial, figure.key())) {
      return null;
    }
    double off = Math.max(-MOST, Math.min(MOST, Math.log(measured / predicted)));
    double share = rehearsal.discrepancy(figure, predicted) / predicted;
    Double doubt = trial.uncertainties().get(figure.key());
    double noise = Math.hypot(ALONE * share, doubt == null ? 0 : doubt / measured);
    return new Seen(observed.settings(), off, share, noise);
  }

  /** A soft stop that was cut instead tells nothing of soft stops. */
  private static boolean notLed(TrialObservation seen) {
    return seen.settings().stop() == StopMode.SOFT
        && seen.releaseS() - seen.stopBeginS() <= seen.intervalS();
  }

  private static double factor(List<Seen> seen) {
    double sum = BELIEF;
    for (Seen one : seen) {
      sum += one.off * one.off / (one.share * one.share + one.noise * one.noise);
    }
    return Math.sqrt(Math.max(1, sum / (BELIEF + seen.size())));
  }

  private static Learnt learn(RunFigure figure, List<Seen> seen, double factor) {
    int n = seen.size();
    Array2DRowRealMatrix cover = new Array2DRowRealMatrix(n, n);
    ArrayRealVector off = new ArrayRealVector(n);
    for (int i = 0; i < n; i++) {
      Seen a = seen.get(i);
      off.setEntry(i, a.off);
      for (int j = 0; j <= i; j++) {
        Seen b = seen.get(j);
        double shared = factor * factor * a.share * b.share * alike(figure, a.settings, b.settings);
        double both = shared + (i == j ? a.noise * a.noise : 0);
        cover.setEntry(i, j, both);
        cover.setEntry(j, i, both);
      }
    }
    CholeskyDecomposition solved = new CholeskyDecomposition(cover);
    return new Learnt(seen, factor, solved, solved.getSolver().solve(off));
  }

  private static double alike(RunFigure figure, StarterSettings a, StarterSettings b) {
    return figure.ofStop() ? SettingDistance.stops(a, b) : SettingDistance.starts(a, b);
  }

  /**
   * A predicted value as the trials near to these settings would have it.
   *
   * @param value as the model has it; NaN stays NaN
   */
  double corrected(RunFigure figure, double value, double share, StarterSettings settings) {
    Learnt known = learnt.get(figure);
    if (known == null || !(value > 0)) {
      return value;
    }
    double shift = between(figure, known, share, settings).dotProduct(known.pull);
    return value * Math.exp(Math.max(-MOST, Math.min(MOST, shift)));
  }

  /** The share of a figure it may still be off by: at least the share given. */
  double share(RunFigure figure, double share, StarterSettings settings) {
    Learnt known = learnt.get(figure);
    if (known == null) {
      return share;
    }
    RealVector between = between(figure, known, share, settings);
    double left =
        square(known.factor * share) - between.dotProduct(known.cover.getSolver().solve(between));
    return Math.sqrt(Math.max(0, left) + square(ALONE * share));
  }

  private static double square(double value) {
    return value * value;
  }

  private static RealVector between(
      RunFigure figure, Learnt known, double share, StarterSettings settings) {
    ArrayRealVector out = new ArrayRealVector(known.seen.size());
    for (int k = 0; k < known.seen.size(); k++) {
      Seen one = known.seen.get(k);
      out.setEntry(
          k,
          known.factor * known.factor * share * one.share * alike(figure, settings, one.settings));
    }
    return out;
  }
}
