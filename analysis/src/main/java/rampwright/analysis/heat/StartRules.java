package rampwright.analysis.heat;

import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * How often a motor may be started.
 *
 * @param perHour most starts in any hour; below 1 they lie 1 / perHour hours apart
 * @param restS least time from the end of current to the next start, s; 0 when no rule asks for one
 * @param source where both come from
 * @param doubts what the rule rests on and is not known to hold; empty when nothing
 */
public record StartRules(double perHour, double restS, String source, String doubts) {
  // Above the table: 2 an hour. Common practice, no source.
  private static final double LARGE_PER_HOUR = 2;

  // Fans and crushers have up to nine times the rotor's inertia. Common practice, no source.
  private static final double HEAVY = 9;

  public StartRules {
    if (!(perHour > 0 && restS >= 0)) {
      throw new IllegalArgumentException(
          "start rules: " + perHour + " an hour and a rest of " + restS + " s");
    }
  }

  /**
   * The maker's word, or the table's where he is silent.
   *
   * @param makersPerHour null where the sheet is silent
   * @param ratedW rated power, W
   * @param polePairs 1 and more
   * @param loadInertiaKgM2 of the load at the motor shaft; null when not known
   * @param rotorInertiaKgM2 of the motor's rotor, or usual for it; the load is taken as {@value
   *     #HEAVY} times it where it is not known
   * @param quadratic whether load torque goes with the square of speed
   */
  public static StartRules of(
      @Nullable Double makersPerHour,
      double ratedW,
      int polePairs,
      @Nullable Double loadInertiaKgM2,
      double rotorInertiaKgM2,
      boolean quadratic) {
    if (makersPerHour != null) {
      return new StartRules(makersPerHour, 0, "nameplate starts_per_hour", "");
    }
    StartsTable.Row row = StartsTable.row(ratedW / StartsTable.WATTS_PER_HP, polePairs);
    if (row == null) {
      return new StartRules(
          LARGE_PER_HOUR,
          0,
          "2 an hour for want of the maker's number above 250 hp (common practice, no source)",
          "");
    }
    double inertia = loadInertiaKgM2 == null ? HEAVY * rotorInertiaKgM2 : loadInertiaKgM2;
    double perHour = row.perHour(inertia / StartsTable.KGM2_PER_LBFT2);
    String doubts =
        loadInertiaKgM2 == null
            ? String.format(
                Locale.ROOT,
                "load inertia not given, taken as that of a heavy fan, %.0f times the rotor's: %.3g kg m2",
                HEAVY,
                inertia)
            : "";
    if (!quadratic) {
      doubts +=
          (doubts.isEmpty() ? "" : "; ") + "the table is for load torque with the square of speed";
    }
    return new StartRules(perHour, row.restS(), "NEMA MG 10, table 2-3", doubts);
  }

  /**
   * Time until one more start keeps within the number an hour, s.
   *
   * @param beganS instants of the starts so far, in order
   * @param nowS the moment asked about
   */
  public double waitS(List<Double> beganS, double nowS) {
    int whole = Math.max(1, (int) Math.floor(perHour + 1e-9));
    double windowS = perHour < 1 ? 3600 / perHour : 3600;
    if (beganS.size() < whole) {
      return 0;
    }
    double leavesS = beganS.get(beganS.size() - whole) + windowS;
    return Math.max(0, leavesS - nowS);
  }

  /** Starts within the window that counts, up to a moment. */
  public long counted(List<Double> beganS, double nowS) {
    double windowS = perHour < 1 ? 3600 / perHour : 3600;
    return beganS.stream().filter(at -> at > nowS - windowS && at <= nowS).count();
  }
}
