package rampwright.app.advice;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.fit.AssetData;
import rampwright.analysis.fit.TrialObservation;
import rampwright.analysis.machine.StarterSettings;

/**
 * What advice is asked of.
 *
 * @param asset nameplate, load and supply
 * @param ranges what the starter lets one enter
 * @param limits the envelope
 * @param trials trials so far, oldest first, unrepresentative ones left out
 * @param present settings now on the starter; null when unknown (the last trial's are taken)
 */
public record AdviceRequest(
    AssetData asset,
    SettingRanges ranges,
    List<FigureLimit> limits,
    List<Trial> trials,
    @Nullable StarterSettings present) {
  public AdviceRequest {
    limits = List.copyOf(limits);
    trials = List.copyOf(trials);
  }

  /**
   * One trial.
   *
   * @param observation readings for the fit
   * @param figures what was measured, by figure key; a key that could not be had is left out
   * @param cutBeforeBypass current was cut before full voltage was reached, though the shaft was at
   *     full speed: the starter's own limit on the starting time
   */
  public record Trial(
      TrialObservation observation, Map<String, Double> figures, boolean cutBeforeBypass) {
    /** A trial that was by-passed, or failed in a way its observation tells. */
    public Trial(TrialObservation observation, Map<String, Double> figures) {
      this(observation, figures, false);
    }

    public Trial {
      figures = Map.copyOf(figures);
    }
  }
}
