package rampwright.analysis.fit;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.machine.RunFigures.PhaseFactors;
import rampwright.analysis.machine.StarterSettings;

/**
 * One trial as the fit sees it: settings, readings over time and a few instants.
 *
 * <p>Shape: arrays of equal length, times increasing; NaN where there is no reading. Instants are
 * on the same time base; NaN when they never came or are not known. The arrays are not to be
 * written to.
 *
 * @param settings what was set
 * @param timeS times, s
 * @param currentA mean of the phases' RMS currents
 * @param voltageV mean of the RMS line-to-line voltages on the starter's line side; null without
 * @param speedRpm shaft speed; null without
 * @param inceptionS current begins
 * @param stopBeginS stop order (NaN: none in the record)
 * @param stopBeginSigmaS standard uncertainty of the stop order, s
 * @param releaseS current ceases for good
 * @param end how the start ended
 * @param phases how the phases differ from their mean
 * @param sourceVoltageV mean line voltage before inception, V; NaN without voltage channels
 * @param intervalS usual time between readings
 */
public record TrialObservation(
    StarterSettings settings,
    double[] timeS,
    double[] currentA,
    double @Nullable [] voltageV,
    double @Nullable [] speedRpm,
    double inceptionS,
    double stopBeginS,
    double stopBeginSigmaS,
    double releaseS,
    End end,
    PhaseFactors phases,
    double sourceVoltageV,
    double intervalS) {

  /** How a start ended. */
  public enum End {
    /** Full speed was reached. */
    COMPLETED,
    /**
     * Current was cut (or the record ended) before full speed, whether or not it was getting
     * faster.
     */
    FAILED
  }

  public TrialObservation {
    if (timeS.length != currentA.length
        || (voltageV != null && voltageV.length != timeS.length)
        || (speedRpm != null && speedRpm.length != timeS.length)) {
      throw new IllegalArgumentException("observation: arrays differ in length");
    }
    if (Double.isNaN(inceptionS)) {
      throw new IllegalArgumentException("observation: current inception is not known");
    }
    if (!(intervalS > 0)) {
      throw new IllegalArgumentException(
          String.format(Locale.ROOT, "observation: interval %s s must be above zero", intervalS));
    }
  }
}
