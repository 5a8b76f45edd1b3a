package rampwright.analysis.heat;

import java.util.Comparator;
import java.util.List;

/**
 * What is known of the past.
 *
 * @param stretches recorded traces, each with when it began; sorted here
 * @param coldAtS moments at which a person says the motor was at ambient temperature
 * @param forgetAfterS a record this long ago says nothing of what the motor did since; it is then
 *     taken to be hot from rated running
 * @param openedS when the account was first asked: then, hot, it begins, where nothing is recorded
 *     before; positive infinity when it was never asked
 */
public record HeatHistory(
    List<Dated> stretches, List<Double> coldAtS, double forgetAfterS, double openedS) {
  /** Nothing is known. */
  public static final HeatHistory UNKNOWN = new HeatHistory(List.of(), List.of());

  /** A history that nothing went unseen in. */
  public HeatHistory(List<Dated> stretches, List<Double> coldAtS) {
    this(stretches, coldAtS, Double.POSITIVE_INFINITY);
  }

  /** A history of an account that was never asked. */
  public HeatHistory(List<Dated> stretches, List<Double> coldAtS, double forgetAfterS) {
    this(stretches, coldAtS, forgetAfterS, Double.POSITIVE_INFINITY);
  }

  /**
   * A trace with its date.
   *
   * @param name what to call it
   * @param beginS when its first piece begins
   * @param stretch its pieces
   * @param measured whether it was measured; else a person told of it, and what he did not know was
   *     taken at the worst
   */
  public record Dated(String name, double beginS, HeatStretch stretch, boolean measured) {
    /** A measured trace. */
    public Dated(String name, double beginS, HeatStretch stretch) {
      this(name, beginS, stretch, true);
    }
  }

  public HeatHistory {
    stretches = stretches.stream().sorted(Comparator.comparingDouble(Dated::beginS)).toList();
    coldAtS = coldAtS.stream().sorted().toList();
  }
}
