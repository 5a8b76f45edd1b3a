package rampwright.app.advice;

import java.util.Optional;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.machine.RunFigure;
import rampwright.analysis.machine.SupplyPath;

/**
 * The dip of a start at the end of the cable where voltages are not measured: at the busbar, what
 * others there see; at the starter, what it has to start from.
 *
 * @param atStarter which end: at the starter, else at the busbar
 * @param pct of the voltage before the start
 * @param share dip at the busbar over dip at the starter
 */
public record OtherDip(boolean atStarter, Advice.Range pct, double share) {
  /** Power factors over a run-up, between which the share lies: common practice, no source. */
  private static final double LEAST_POWER_FACTOR = 0.2;

  private static final double MOST_POWER_FACTOR = 0.6;

  /**
   * At the busbar, from the dip at the starter and the sheet's source and cable. Nothing where the
   * sheet has no cable or no dip is predicted.
   */
  public static Optional<OtherDip> atBusbar(
      Advice.@Nullable Range atStarter, @Nullable SupplyPath path) {
    if (atStarter == null || path == null || Double.isNaN(atStarter.median())) {
      return Optional.empty();
    }
    double one = path.busbarShare(LEAST_POWER_FACTOR);
    double other = path.busbarShare(MOST_POWER_FACTOR);
    double share = path.busbarShare(SupplyPath.STARTING_POWER_FACTOR);
    return Optional.of(
        new OtherDip(
            false,
            new Advice.Range(
                share * atStarter.median(),
                Math.min(one, other) * atStarter.low(),
                Math.max(one, other) * atStarter.high()),
            share));
  }

  /**
   * At the starter, as the model has it behind the busbar it was fitted to. Nothing where either is
   * not predicted.
   */
  public static Optional<OtherDip> atStarter(
      Advice.@Nullable Range atBusbar, Advice.@Nullable Range atStarter) {
    return atBusbar == null || atStarter == null || !(atStarter.median() > 0)
        ? Optional.empty()
        : Optional.of(new OtherDip(true, atStarter, atBusbar.median() / atStarter.median()));
  }

  /**
   * Of an advice.
   *
   * @param path of the sheet; null where it has no cable or no strength of the supply
   * @param atBusbar whether voltages are measured there
   */
  public static Optional<OtherDip> of(Advice advice, @Nullable SupplyPath path, boolean atBusbar) {
    Advice.Range dip = advice.predicted().get(RunFigure.VOLTAGE_DIP.key());
    return atBusbar ? atStarter(dip, advice.starterDipPct()) : atBusbar(dip, path);
  }
}
