package rampwright.app.advice;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.fit.AssetFit;
import rampwright.analysis.fit.Batch;
import rampwright.analysis.fit.FitResult;
import rampwright.analysis.fit.TrialObservation;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.RunFigure;
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
  private static final double NEED_TRIAL_CHANCE = 0.10;
  private static final double USUAL_SOURCE_SIGMA = 0.009;
  private static final double UNSEEN_SOURCE_SIGMA = 0.02;
  // More chance than that is worth telling somebody whose trial met everything.
  private static final double MUCH_MORE = 0.15;
  private static final double EVEN = 0.5;
  private static final double HARD = 0.15;
  private static final double WIDE = 10;
  private static final double NO_WORSE = 0.03;

  private final AdviceRequest request;
  private final TrialHistory history;
  private final Batch batch = new ParallelBatch();
  private final FitResult fit;
  private final Chances chances;
  private final Belief belief;
  private final Judgement judgement;
  private final StarterSettings present;

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
            history.shown(),
            history.longestS(),
            history.cutAfterS());
    double source = history.sourceV();
    double sigma =
        trials.isEmpty()
            ? UNSEEN_SOURCE_SIGMA
            : USUAL_SOURCE_SIGMA * Math.sqrt(1 + 1.0 / trials.size());
    MachineModel best = fit.bestModel(source);
    belief =
        new Belief(
            chances,
            batch,
            best,
            Belief.unsteady(
                fit.models(MODELS, source, sigma, new Random(SEED)), trials.size(), SEED + 3));
    judgement = new Judgement(request, history, fit, belief);
    Lessons lessons = Lessons.of(request.trials(), fit, belief.models(), source, chances, batch);
    chances.learn(lessons);
    belief.heed(lessons);
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
    double chance = engine.belief.told(settings);
    return engine.answer(
        chance >= EVEN ? Advice.Status.KEEP : Advice.Status.CHANGE,
        "these settings as given; nothing was searched",
        settings,
        chance,
        List.of(),
        List.of());
  }

  private Advice advice() {
    boolean fresh = request.trials().isEmpty();
    if (!fresh) {
      double now = belief.told(present);
      // Nothing that a search could find would be worth telling then.
      if (now >= 1 - MUCH_MORE && judgement.keeps(present, now, 1)) {
        return keep(present, now);
      }
    }
    Random random = new Random(SEED + 1);
    StartSearch search =
        search(fresh ? FirstTrial.careful(request.ranges()) : request.ranges(), fresh, 1);
    StarterSettings start = search.search(random).settings();
    if (fresh && search.chance(start) < HARD) {
      // The careful first trial would hardly do: the whole range then.
      search = search(request.ranges(), true, 1);
      start = search.search(random).settings();
    }
    double startChance = search.chance(start);
    // Little is known or little is possible: look again as if the figures were far less certain,
    // which aims at the middle of the limits instead of at a few lucky draws.
    if (startChance < HARD) {
      StarterSettings other = search(request.ranges(), true, WIDE).search(random).settings();
      if (search.chance(other) > startChance - NO_WORSE) {
        start = other;
      }
    }
    StopSearch stops = new StopSearch(chances, request.ranges(), batch, belief.models(), 1);
    StarterSettings proposed = stops.search(start).settings();
    belief.believe(search.reach());
    if (fresh) {
      return judged(search, stops, proposed);
    }
    proposed =
        new FewerChanges(chances, belief.likely(proposed), belief::startTold, belief::stopTold)
            .of(present, proposed);
    double now = belief.told(present);
    double chance = belief.told(proposed);
    if (judgement.keeps(present, now, chance)) {
      return keep(chance < now + MUCH_MORE ? present : proposed, now);
    }
    StarterSettings telling =
        judgement.hopeless(proposed, belief.chance(proposed, 1)) ? null : telling(stops, proposed);
    return telling == null
        ? judged(search, stops, proposed)
        : answer(
            Advice.Status.NEED_ANOTHER_TRIAL,
            "no channel shows how the machine comes to rest, and another stop like the ones made"
                + " would not either; the current of this stop tells more. A speed channel, or the"
                + " load's inertia in asset.toml, would settle it",
            telling,
            belief.told(telling),
            changes(telling),
            List.of());
  }

  /**
   * Keeps the present settings.
   *
   * @param roomier what somebody could change who wants to be surer still; the present settings
   *     without much to gain
   */
  private Advice keep(StarterSettings roomier, double now) {
    return answer(
        Advice.Status.KEEP,
        "the last trial met every limit"
            + (judgement.allMeasured() ? "" : " that could be measured")
            + (now < EVEN
                ? "; trials that did are met again nine times in ten, though the model, which is"
                    + " less sure, gives the same settings fewer"
                : " and the next is likely to do so with the same settings")
            + (roomier.equals(present) ? "" : moreRoom(roomier, now)),
        present,
        now,
        List.of(),
        List.of());
  }

  private String moreRoom(StarterSettings roomier, double now) {
    List<String> to = new ArrayList<>();
    for (Advice.Change change : changes(roomier)) {
      to.add(SettingWords.label(change.setting()) + " " + change.to());
    }
    return String.format(
        Locale.ROOT,
        " (%.0f %%); whoever wants more room: %s (%.0f %%)",
        100 * now,
        String.join(", ", to),
        100 * belief.told(roomier));
  }

  /**
   * What to try where limits on the stop are not likely kept, no figure shows whether they are, and
   * the stop proposed was made before: doing it again would teach nothing. Null otherwise.
   */
  private @Nullable StarterSettings telling(StopSearch stops, StarterSettings proposed) {
    double chance = belief.stopTold(proposed);
    if (chance >= Judgement.SURE || !judgement.stopUnseen() || !history.stopMade(proposed)) {
      return null;
    }
    List<StarterSettings> others = stops.sample(proposed);
    others.removeIf(history::stopMade);
    return new TellingStop(chances, batch, belief.models()).of(others, belief::stopTold, chance);
  }

  /** The proposal with what it can be called. */
  private Advice judged(StartSearch search, StopSearch stops, StarterSettings proposed) {
    boolean fresh = request.trials().isEmpty();
    double chance = belief.told(proposed);
    boolean hopeless = !fresh && judgement.hopeless(proposed, belief.chance(proposed, 1));
    boolean unexplained = fit.status() == FitResult.Status.UNEXPLAINED;
    List<Advice.Binding> standing =
        hopeless || chance < NEED_TRIAL_CHANCE ? binding(search, stops, proposed) : List.of();
    Advice.Status status = Advice.Status.CHANGE;
    String reason;
    if (hopeless) {
      status = Advice.Status.CANNOT_MEET;
      reason = "no settings within the starter's ranges meet every limit; these come nearest";
    } else if (fresh) {
      reason = "a first proposal from the nameplate alone; expect to correct it after the trial";
    } else if (unexplained) {
      status = Advice.Status.NEED_ANOTHER_TRIAL;
      reason =
          String.format(
              Locale.ROOT,
              "the model does not explain a trial (residual %.1f where 1 is expected); this trial"
                  + " would tell more",
              fit.residual());
    } else if (chance < NEED_TRIAL_CHANCE) {
      status = Advice.Status.NEED_ANOTHER_TRIAL;
      reason = "what is known does not decide whether the limits can be met; this trial would tell";
    } else {
      reason =
          String.format(
              Locale.ROOT,
              "these settings meet every limit with a chance of %.0f %%",
              100 * chance);
    }
    return answer(status, reason, proposed, chance, changes(proposed), standing);
  }

  private StartSearch search(SettingRanges ranges, boolean gentle, double caution) {
    return new StartSearch(
        chances, ranges, batch, belief.best(), belief.models(), present, caution, gentle);
  }

  private List<Advice.Binding> binding(
      StartSearch search, StopSearch stops, StarterSettings proposed) {
    List<StarterSettings> sample = new ArrayList<>();
    search.sampled().forEach(each -> sample.add(each.settings()));
    return new Binding(
            chances,
            batch,
            belief.best(),
            new Moves(request.ranges()),
            sample,
            stops.sample(proposed),
            proposed)
        .find();
  }

  private List<Advice.Change> changes(StarterSettings proposed) {
    return new Reasons(chances, belief.likely(proposed), present, proposed, belief::told).list();
  }

  private Advice answer(
      Advice.Status status,
      String reason,
      StarterSettings settings,
      double chance,
      List<Advice.Change> changes,
      List<Advice.Binding> binding) {
    double[] weights = belief.weights();
    Prediction prediction =
        new Prediction(request, chances, batch, belief.models(), weights, SEED + 2);
    List<Rehearsal> all = prediction.runs(settings);
    MachineModel likely = belief.likely(settings);
    Trajectory course = chances.whole(likely, settings);
    List<Rehearsal> drawn = all.subList(0, Math.min(COURSES, all.size()));
    double highest = request.asset().measuredRatedCurrentA() * chances.phases().highestCurrent();
    double syncRpm = request.asset().plate().syncSpeedRpm();
    boolean limits = !chances.startLimits().isEmpty() || !chances.stops().isEmpty();
    @Nullable Double told = limits ? Double.valueOf(Math.min(1, Math.max(0, chance))) : null;
    return new Advice(
        status,
        reason,
        settings,
        changes,
        prediction.figures(all),
        prediction.starterDipPct(all),
        told,
        binding,
        chances.notAssessable(),
        prediction.cautions(all, chances.rehearsal(course, likely, settings)),
        new Advice.Model(
            fit.residual(),
            ModelSummary.of(fit, belief.best()),
            request.trials().isEmpty() ? "nameplate" : "fitted",
            fit.atPrior()),
        course,
        request.asset().measuredRatedCurrentA(),
        // Current ceases where the ramp-down lets go, the shaft goes on as the load has it.
        Course.of(
            drawn, weights, RunFigure.CONTROLLED_TIME, (run, k) -> highest * run.currentRatio(k)),
        Course.of(drawn, weights, RunFigure.STOP_TIME, (run, k) -> syncRpm * run.speedPu(k)));
  }
}
