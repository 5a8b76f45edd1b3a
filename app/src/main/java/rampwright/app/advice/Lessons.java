package rampwright.app.advice;

import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.List;
import rampwright.analysis.fit.Batch;
import rampwright.analysis.fit.FitResult;
import rampwright.analysis.fit.TrialObservation;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.StarterSettings;

/**
 * What the trials made say of each draw of the fit: how far it is off their figures, which moves
 * what it tells of settings near to theirs, and whether it comes to full speed where they did.
 *
 * <p>Every draw is held against a trial as that trial was, with its own load and source voltage; so
 * all draws tell the same of settings that were tried, but for what differs from trial to trial,
 * and what they tell of others differs the more the farther these are.
 */
final class Lessons {
  /** Before any trial. */
  static final Lessons NONE = ofAll(Experience.NONE);

  // A start differs from trial to trial, so a draw on which a made one fails is not ruled out.
  private static final double FAILS_WHERE_MADE = 0.1;

  private final IdentityHashMap<MachineModel, Experience> ofModel;
  private final Experience ofBest;
  private final double[] weights;

  private Lessons(
      IdentityHashMap<MachineModel, Experience> ofModel, Experience ofBest, double[] weights) {
    this.ofModel = ofModel;
    this.ofBest = ofBest;
    this.weights = weights;
  }

  /** The same said of every model. */
  static Lessons ofAll(Experience experience) {
    return new Lessons(new IdentityHashMap<>(), experience, new double[0]);
  }

  private record Lesson(Experience experience, double weight) {}

  /**
   * Goes through the trials on every draw.
   *
   * @param trials trials made, as they were fitted
   * @param models the draws with the scatter of the trial to come, in the order of the fit's
   * @param sourceV source voltage where a trial did not measure it, V
   */
  static Lessons of(
      List<AdviceRequest.Trial> trials,
      FitResult fit,
      List<MachineModel> models,
      double sourceV,
      Chances chances,
      Batch batch) {
    if (trials.isEmpty()) {
      return NONE;
    }
    List<List<MachineModel>> asTheyWere = new ArrayList<>();
    for (int t = 0; t < trials.size(); t++) {
      double measuredV = trials.get(t).observation().sourceVoltageV();
      asTheyWere.add(
          fit.trialModels(t, models.size(), Double.isNaN(measuredV) ? sourceV : measuredV));
    }
    Experience ofBest = Experience.of(trials, rehearsals(trials, chances, draw(asTheyWere, 0)));
    List<Lesson> lessons =
        batch.map(
            models.size(),
            k -> {
              List<Rehearsal> seen = rehearsals(trials, chances, draw(asTheyWere, k + 1));
              return new Lesson(ofBest.ofDraw(trials, seen), weight(trials, seen));
            });
    IdentityHashMap<MachineModel, Experience> ofModel = new IdentityHashMap<>();
    double[] weights = new double[models.size()];
    for (int k = 0; k < models.size(); k++) {
      ofModel.put(models.get(k), lessons.get(k).experience());
      weights[k] = lessons.get(k).weight();
    }
    return new Lessons(ofModel, ofBest, weights);
  }

  /** One draw as it was in each trial; 0 is the most likely model. */
  private static List<MachineModel> draw(List<List<MachineModel>> asTheyWere, int k) {
    return asTheyWere.stream().map(each -> each.get(k)).toList();
  }

  private static List<Rehearsal> rehearsals(
      List<AdviceRequest.Trial> trials, Chances chances, List<MachineModel> draw) {
    List<Rehearsal> rehearsals = new ArrayList<>();
    for (int t = 0; t < trials.size(); t++) {
      StarterSettings settings = trials.get(t).observation().settings();
      MachineModel model = draw.get(t);
      rehearsals.add(chances.rehearsal(chances.whole(model, settings), model, settings));
    }
    return rehearsals;
  }

  private static double weight(List<AdviceRequest.Trial> trials, List<Rehearsal> rehearsals) {
    double weight = 1;
    for (int t = 0; t < trials.size(); t++) {
      boolean made = trials.get(t).observation().end() == TrialObservation.End.COMPLETED;
      if (made && !rehearsals.get(t).run().completed()) {
        weight *= FAILS_WHERE_MADE;
      }
    }
    return weight;
  }

  /** What is known of a model; of one that is no draw, what is known of the most likely one. */
  Experience of(MachineModel model) {
    return ofModel.getOrDefault(model, ofBest);
  }

  /** How much a draw counts for, by whether it comes to full speed where the trials did. */
  double weight(int draw) {
    return weights.length == 0 ? 1 : weights[draw];
  }
}
