package rampwright.app.usecase;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.machine.RunFigure;
import rampwright.analysis.machine.StarterSettings;
import rampwright.app.advice.Advice;

/**
 * What advice owes its reader whatever the search found: nothing to change where it says keep,
 * something to change where it says change, and no figure that cannot be.
 */
final class AdviceRules {
  /** Figures that lie on either side of zero; every other one is a size, a time or a share. */
  private static final Set<String> SIGNED =
      Set.of("pressure_peak_bar", "pressure_min_bar", "reactive_power_var");

  private static final double MORE_LIKELY_THAN_NOT = 0.5;

  private AdviceRules() {}

  /**
   * The advice with the rules applied.
   *
   * @param present what was set in the last trial; null before the first
   */
  static Advice applied(Advice advice, @Nullable StarterSettings present) {
    Double chance = advice.chanceAllMet();
    Advice.Status status =
        status(
            advice.status(),
            advice.changes(),
            present != null,
            chance == null || chance >= MORE_LIKELY_THAN_NOT);
    String reason =
        status == advice.status()
            ? advice.reason()
            : "no other settings are likelier to meet every limit than those of the last trial"
                + (status == Advice.Status.KEEP ? "" : ", and those are not likely to either");
    List<Advice.Change> changes =
        status == Advice.Status.KEEP ? List.<Advice.Change>of() : advice.changes();
    Map<String, Advice.Range> predicted = new LinkedHashMap<>();
    advice.predicted().forEach((figure, range) -> predicted.put(figure, possible(figure, range)));
    Advice.Range dip = advice.starterDipPct();
    return new Advice(
        status,
        reason,
        advice.settings(),
        changes,
        predicted,
        dip == null ? null : possible(RunFigure.VOLTAGE_DIP.key(), dip),
        advice.chanceAllMet(),
        advice.binding(),
        advice.notAssessable(),
        advice.cautions(),
        advice.model(),
        advice.trace(),
        advice.ratedCurrentA(),
        advice.currentA(),
        advice.speedRpm());
  }

  /** Nothing to change is no change, and nothing to keep either where it is not likely to do. */
  static Advice.Status status(
      Advice.Status found, List<Advice.Change> changes, boolean afterATrial, boolean likely) {
    if (found != Advice.Status.CHANGE || !afterATrial || !changes.isEmpty()) {
      return found;
    }
    return likely ? Advice.Status.KEEP : Advice.Status.NEED_ANOTHER_TRIAL;
  }

  static Advice.Range possible(String figure, Advice.Range range) {
    return SIGNED.contains(figure)
        ? range
        : new Advice.Range(
            Math.max(0, range.median()), Math.max(0, range.low()), Math.max(0, range.high()));
  }
}
