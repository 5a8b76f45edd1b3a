package rampwright.app.advice;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.fit.AssetFit;
import rampwright.analysis.fit.Batch;
import rampwright.analysis.fit.FitResult;
import rampwright.analysis.fit.TrialObservation;
import rampwright.analysis.machine.LoadCurve;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.Trajectory;

/**
 * Says what to set next, what will then happen, how likely every limit is met, and, when no setting
 * can meet them, that and which limit stands in the way.
 *
 * <p>A model is fitted to all trials; settings are searched, within the starter's ranges and steps,
 * for the largest chance over draws of the model's parameters with the scatter from trial to trial;
 * among equals less heat, then a smaller change. The result does not depend on the clock or on the
 * number of processors.
 */
public final class AdviceEngine {
  private static final long SEED = 314159L;
  private static final int MODELS = 64;
  private static final int COURSES = 40;
  // Trials that met everything meet it again more often than told (docs, exam.md): even odds do.
  private static final double KEEP_CHANCE = 0.5;
  private static final double MUCH_MORE = 0.15;
  private static final double KEEP_BELOW_BEST = 0.12;
  private static final double KEEP_MARGIN = 0.01;
  private static final double KEEP_UNSEEN = 0.6;
  private static final double HOPELESS = 0.03;
  private static final double HOPELESS_CAUTIOUS = 0.06;
  private static final double HOPELESS_LATER = 2;
  private static final double NEED_TRIAL_CHANCE = 0.10;
  private static final double USUAL_SOURCE_SIGMA = 0.009;
  private static final double UNSEEN_SOURCE_SIGMA = 0.02;
  // Standard deviation of a trial's breakaway torque over the usual; common practice, no source.
  private static final double BREAKAWAY_SCATTER = 0.07;
  // A trial this near to its limits speaks against a model that calls them out of reach.
  private static final double NEAR = 0.08;
  private static final double NEAR_LATER = 0.04;
  private static final int FEW_TRIALS = 4;
  // Limits that can be met, as a share of all; and of models drawn from the prior, common practice.
  private static final double ACHIEVABLE = 0.8;
  private static final double ACHIEVABLE_BY_CHANCE = 0.15;
  private static final double REACHED = 0.5;
  private static final double HARD = 0.15;
  private static final double WIDE = 10;
  private static final double NO_WORSE = 0.03;

  private final AdviceRequest request;
  private final TrialHistory history;
  private final Batch batch = new ParallelBatch();
  private final FitResult fit;
  private final Chances chances;
  private final MachineModel best;
  private final List<MachineModel> models;
  private final StarterSettings present;
  private final double[] weights;

  private AdviceEngine(AdviceRequest request) {
    this.request = request;
    history = new TrialHistory(request);
    List<TrialObservation> trials = history.observations();
    fit = AssetFit.fit(request.asset(), trials, batch);
    chances =
        new Chances(
            request,
            history.phases(),
            TrialHistory.USUAL_RUN_S,
            history.tried(),
            history.longestS(),
            history.cutAfterS());
    double source = history.sourceV();
    double sigma =
        trials.isEmpty()
            ? UNSEEN_SOURCE_SIGMA
            : USUAL_SOURCE_SIGMA * Math.sqrt(1 + 1.0 / trials.size());
    best = fit.bestModel(source);
    models = unsteady(fit.models(MODELS, source, sigma, new Random(SEED)), trials.size());
    Lessons lessons = Lessons.of(request.trials(), fit, models, source, chances, batch);
    chances.learn(lessons);
    weights = new double[models.size()];
    Arrays.setAll(weights, lessons::weight);
    StarterSettings given = request.present();
    present =
        given != null
            ? given
            : trials.isEmpty()
                ? FirstTrial.settings(request)
                : trials.get(trials.size() - 1).settings();
  }

  /** Advice on the next settings. */
  public static Advice advise(AdviceRequest request) {
    return new AdviceEngine(request).advice();
  }

  /**
   * What given settings would do; the status is {@code keep} or {@code change} by whether they meet
   * the limits more likely than not, and nothing is searched.
   */
  public static Advice predict(AdviceRequest request, StarterSettings settings) {
    AdviceEngine engine = new AdviceEngine(request);
    double chance = engine.chance(settings, 1);
    return engine.answer(
        chance >= 0.5 ? Advice.Status.KEEP : Advice.Status.CHANGE,
        "these settings as given; nothing was searched",
        settings,
        chance,
        List.of(),
        List.of());
  }

  /** Breakaway differs from trial to trial by more than the load does. */
  private static List<MachineModel> unsteady(List<MachineModel> models, int trials) {
    Random random = new Random(SEED + 3);
    double sigma = BREAKAWAY_SCATTER * Math.sqrt(1 + 1.0 / Math.max(1, trials));
    List<MachineModel> out = new ArrayList<>();
    for (MachineModel m : models) {
      LoadCurve l = m.load();
      out.add(
          new MachineModel(
              m.plate(),
              m.motor(),
              m.starter(),
              m.supply(),
              m.sourceVoltageV(),
              new LoadCurve(
                  l.fullTorque(),
                  l.minimumTorque(),
                  l.breakawayTorque() * Math.exp(sigma * random.nextGaussian()),
                  l.exponent(),
                  l.breakawayWidth()),
              m.water(),
              m.inertiaKgM2()));
    }
    return out;
  }

  private Advice advice() {
    boolean fresh = request.trials().isEmpty();
    Random random = new Random(SEED + 1);
    StartSearch search =
        search(fresh ? FirstTrial.careful(request.ranges()) : request.ranges(), fresh);
    StarterSettings start = search.search(random).settings();
    double startChance = search.chance(start);
    if (fresh && startChance < HARD) {
      // The careful first trial would hardly do: the whole range then.
      search = search(request.ranges(), true);
      start = search.search(random).settings();
      startChance = search.chance(start);
    }
    // Little is known or little is possible: look again as if the figures were far less certain,
    // which aims at the middle of the limits instead of at a few lucky draws.
    if (startChance < HARD) {
      StartSearch again =
          new StartSearch(chances, request.ranges(), batch, best, models, present, WIDE, true);
      StarterSettings other = again.search(random).settings();
      if (search.chance(other) > startChance - NO_WORSE) {
        start = other;
      }
    }
    StopSearch stops = new StopSearch(chances, request.ranges(), batch, models, 1);
    StarterSettings proposed = stops.search(start).settings();
    believe(search.reach());
    if (!fresh) {
      proposed =
          new FewerChanges(chances, likely(proposed), this::startTold, this::stopTold)
              .of(present, proposed);
    }
    double raw = chance(proposed, 1);
    double chance = told(proposed);
    double now = told(present);
    if (!fresh && keeps(now, chance)) {
      return answer(
          Advice.Status.KEEP,
          "the last trial met every limit"
              + (allMeasured() ? "" : " that could be measured")
              + " and the next is likely to do so with the same settings"
              + moreRoom(proposed, now, chance),
          present,
          now,
          List.of(),
          List.of());
    }
    boolean hopeless = !fresh && hopeless(proposed, raw);
    List<Advice.Binding> standing =
        hopeless || chance < NEED_TRIAL_CHANCE ? binding(search, stops, proposed) : List.of();
    if (hopeless) {
      return answer(
          Advice.Status.CANNOT_MEET,
          "no settings within the starter's ranges meet every limit; these come nearest",
          proposed,
          chance,
          changes(proposed),
          standing);
    }
    if (!fresh && (fit.status() == FitResult.Status.UNEXPLAINED || chance < NEED_TRIAL_CHANCE)) {
      String why =
          fit.status() == FitResult.Status.UNEXPLAINED
              ? String.format(
                  Locale.ROOT,
                  "the model does not explain a trial (residual %.1f where 1 is expected); this trial"
                      + " would tell more",
                  fit.residual())
              : "what is known does not decide whether the limits can be met; this trial would tell";
      return answer(
          Advice.Status.NEED_ANOTHER_TRIAL, why, proposed, chance, changes(proposed), standing);
    }
    return answer(
        Advice.Status.CHANGE,
        fresh
            ? "a first proposal from the nameplate alone; expect to correct it after the trial"
            : String.format(
                Locale.ROOT,
                "these settings meet every limit with a chance of %.0f %%",
                100 * chance),
        proposed,
        chance,
        changes(proposed),
        standing);
  }

  /** What could be changed by somebody who wants to be surer still; empty without much to gain. */
  private String moreRoom(StarterSettings proposed, double now, double chance) {
    if (chance < now + MUCH_MORE) {
      return "";
    }
    List<String> to = new ArrayList<>();
    for (Advice.Change change : changes(proposed)) {
      to.add(SettingWords.label(change.setting()) + " " + change.to());
    }
    return String.format(
        Locale.ROOT,
        " (%.0f %%); whoever wants more room: %s (%.0f %%)",
        100 * now,
        String.join(", ", to),
        100 * chance);
  }

  private StartSearch search(SettingRanges ranges, boolean gentle) {
    return new StartSearch(chances, ranges, batch, best, models, present, 1, gentle);
  }

  private List<Advice.Binding> binding(
      StartSearch search, StopSearch stops, StarterSettings proposed) {
    List<StarterSettings> sample = new ArrayList<>();
    search.sampled().forEach(each -> sample.add(each.settings()));
    return new Binding(
            chances,
            batch,
            best,
            new Moves(request.ranges()),
            sample,
            stops.sample(proposed),
            proposed)
        .find();
  }

  /**
   * Whether even figures twice as uncertain as thought leave next to no chance, and the trials bear
   * it out: one was made since the first, and none came near.
   */
  private boolean hopeless(StarterSettings proposed, double chance) {
    int trials = request.trials().size();
    if (trials < 2 || history.bestMiss() < (trials < FEW_TRIALS ? NEAR : NEAR_LATER)) {
      return false;
    }
    double much = request.trials().size() >= 3 ? HOPELESS_LATER : 1;
    return fit.status() == FitResult.Status.FITTED
        && history.completedOnce()
        && chance < much * HOPELESS
        && chance(proposed, 2) < much * HOPELESS_CAUTIOUS;
  }

  private boolean allMeasured() {
    AdviceRequest.Trial last = request.trials().get(request.trials().size() - 1);
    return request.limits().stream().allMatch(limit -> last.figures().containsKey(limit.key()));
  }

  private boolean keeps(double now, double bestChance) {
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
      if (value != null && (!limit.met(value) || limit.margin(value) < KEEP_MARGIN)) {
        return false;
      }
    }
    if (!(last.corridorMargin() >= KEEP_MARGIN)) {
      return false;
    }
    // Near the best is not enough where part of what is asked was never seen.
    return now
        >= (allMeasured() ? Math.min(KEEP_CHANCE, bestChance - KEEP_BELOW_BEST) : KEEP_UNSEEN);
  }

  /**
   * Weighs the draws by whether any settings meet the limits on them: whoever set the limits most
   * likely had reason to think that they can be met. Bayes: weight = share / usual x reach + (1 -
   * share), share = how often limits are achievable, usual = how often a draw of the prior happens
   * to be.
   */
  private void believe(double[] reach) {
    for (int k = 0; k < weights.length; k++) {
      double achievable = Math.min(1, reach[k] / REACHED);
      weights[k] *= ACHIEVABLE / ACHIEVABLE_BY_CHANCE * achievable + 1 - ACHIEVABLE;
    }
  }

  /** Chance of start and stop on each model. */
  private List<Double> chances(StarterSettings settings, double caution) {
    return batch.map(
        models.size(),
        k ->
            chances.ofStart(models.get(k), settings, caution, false)
                * (chances.stops().isEmpty()
                    ? 1
                    : chances.ofStop(models.get(k), settings, caution)));
  }

  /** Joint chance of start and stop over all models alike. */
  private double chance(StarterSettings settings, double caution) {
    double sum = 0;
    for (double one : chances(settings, caution)) {
      sum += one;
    }
    return sum / models.size();
  }

  /** The same over the models as weighed by {@link #believe}. */
  private double told(StarterSettings settings) {
    return weighed(chances(settings, 1));
  }

  private double startTold(StarterSettings settings) {
    return weighed(
        batch.map(models.size(), k -> chances.ofStart(models.get(k), settings, 1, false)));
  }

  private double stopTold(StarterSettings settings) {
    return chances.stops().isEmpty()
        ? 1
        : weighed(batch.map(models.size(), k -> chances.ofStop(models.get(k), settings, 1)));
  }

  private double weighed(List<Double> each) {
    double sum = 0;
    double total = 0;
    for (int k = 0; k < weights.length; k++) {
      sum += weights[k] * each.get(k);
      total += weights[k];
    }
    return sum / total;
  }

  private List<Advice.Change> changes(StarterSettings proposed) {
    return new Reasons(chances, likely(proposed), present, proposed, this::told).list();
  }

  /**
   * The model to tell and draw a trial by: the most likely one, unless the start fails on it while
   * it does on no more than half of what the draws count for; then the draw that counts for most of
   * those on which it does not.
   */
  private MachineModel likely(StarterSettings settings) {
    if (chances.start(best, settings).completed()) {
      return best;
    }
    List<Boolean> completed =
        batch.map(models.size(), k -> chances.start(models.get(k), settings).completed());
    double share = 0;
    double all = 0;
    int most = -1;
    for (int k = 0; k < weights.length; k++) {
      all += weights[k];
      if (completed.get(k)) {
        share += weights[k];
        most = most < 0 || weights[k] > weights[most] ? k : most;
      }
    }
    return share > 0.5 * all ? models.get(most) : best;
  }

  private Advice answer(
      Advice.Status status,
      String reason,
      StarterSettings settings,
      double chance,
      List<Advice.Change> changes,
      List<Advice.Binding> binding) {
    Prediction prediction = new Prediction(request, chances, batch, models, weights, SEED + 2);
    List<Trajectory> all = prediction.runs(settings);
    MachineModel likely = likely(settings);
    Trajectory course = chances.whole(likely, settings);
    List<Trajectory> runs = all.subList(0, Math.min(COURSES, all.size()));
    double highest = request.asset().plate().ratedCurrentA() * chances.phases().highestCurrent();
    double syncRpm = request.asset().plate().syncSpeedRpm();
    boolean limits = !chances.startLimits().isEmpty() || !chances.stops().isEmpty();
    @Nullable Double told = limits ? Double.valueOf(Math.min(1, Math.max(0, chance))) : null;
    return new Advice(
        status,
        reason,
        settings,
        changes,
        prediction.figures(all, settings),
        told,
        binding,
        chances.notAssessable(),
        prediction.cautions(all, chances.rehearsal(course, likely, settings)),
        new Advice.Model(
            fit.residual(),
            ModelSummary.of(fit, best),
            request.trials().isEmpty() ? "nameplate" : "fitted",
            fit.atPrior()),
        course,
        request.asset().plate().ratedCurrentA(),
        Course.of(runs, weights, (run, k) -> highest * run.currentRatio(k)),
        Course.of(runs, weights, (run, k) -> syncRpm * run.speedPu(k)));
  }
}
