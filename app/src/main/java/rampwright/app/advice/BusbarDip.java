package rampwright.app.advice;

import java.util.Optional;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.machine.RunFigure;
import rampwright.analysis.machine.SupplyPath;

/**
 * What others on the busbar see of a start: the dip predicted at the starter, less what the cable
 * takes.
 *
 * @param pct of the voltage before the start
 * @param share of the dip at the starter
 */
public record BusbarDip(Advice.Range pct, double share) {
  /** Power factors over a run-up, between which the share lies: common practice, no source. */
  private static final double LEAST_POWER_FACTOR = 0.2;

  private static final double MOST_POWER_FACTOR = 0.6;

  /** Nothing where the sheet has no cable or no dip is predicted. */
  public static Optional<BusbarDip> of(
      Advice.@Nullable Range atStarter, @Nullable SupplyPath path) {
    if (atStarter == null || path == null || Double.isNaN(atStarter.median())) {
      return Optional.empty();
    }
    double one = path.busbarShare(LEAST_POWER_FACTOR);
    double other = path.busbarShare(MOST_POWER_FACTOR);
    double share = path.busbarShare(SupplyPath.STARTING_POWER_FACTOR);
    return Optional.of(
        new BusbarDip(
            new Advice.Range(
                share * atStarter.median(),
                Math.min(one, other) * atStarter.low(),
                Math.max(one, other) * atStarter.high()),
            share));
  }

  /** Of an advice. */
  public static Optional<BusbarDip> of(Advice advice, @Nullable SupplyPath path) {
    return of(advice.predicted().get(RunFigure.VOLTAGE_DIP.key()), path);
  }
}
