package rampwright.app.advice;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.fit.AssetData;
import rampwright.analysis.fit.TrialObservation;
import rampwright.analysis.machine.StarterSettings;
import rampwright.app.envelope.Corridor;

/**
 * What advice is asked of.
 *
 * @param asset nameplate, load and supply
 * @param ranges what the starter lets one enter
 * @param limits the envelope's limits on figures
 * @param corridors the envelope's corridors
 * @param ratings what motor and starter bear; kept like limits
 * @param trials trials so far, oldest first, unrepresentative ones left out
 * @param present settings now on the starter; null when unknown (the last trial's are taken)
 */
public record AdviceRequest(
    AssetData asset,
    SettingRanges ranges,
    List<FigureLimit> limits,
    List<Corridor> corridors,
    Ratings ratings,
    List<Trial> trials,
    @Nullable StarterSettings present) {
  public AdviceRequest {
    limits = List.copyOf(limits);
    corridors = List.copyOf(corridors);
    trials = List.copyOf(trials);
  }

  /** A request without corridors and ratings. */
  public AdviceRequest(
      AssetData asset,
      SettingRanges ranges,
      List<FigureLimit> limits,
      List<Trial> trials,
      @Nullable StarterSettings present) {
    this(asset, ranges, limits, List.of(), Ratings.NONE, trials, present);
  }

  /**
   * One trial.
   *
   * @param observation readings for the fit
   * @param figures what was measured, by figure key; a key that could not be had is left out
   * @param uncertainties standard uncertainty of each, where it is known
   * @param cutBeforeBypass current was cut before full voltage was reached, though the shaft was at
   *     full speed: the starter's own limit on the starting time
   * @param corridorMargin smallest distance inside the envelope's corridors as a share of the
   *     bound, negative outside; infinite without corridors, NaN when it could not be had
   */
  public record Trial(
      TrialObservation observation,
      Map<String, Double> figures,
      Map<String, Double> uncertainties,
      boolean cutBeforeBypass,
      double corridorMargin) {
    /** A trial that was by-passed, or failed in a way its observation tells; no corridors. */
    public Trial(TrialObservation observation, Map<String, Double> figures) {
      this(observation, figures, Map.of(), false, Double.POSITIVE_INFINITY);
    }

    public Trial {
      figures = Map.copyOf(figures);
      uncertainties = Map.copyOf(uncertainties);
    }
  }
}
