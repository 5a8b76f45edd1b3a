package rampwright.analysis.heat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * What a motor may take, with the gaps of its data sheet filled on the cautious side.
 *
 * @param lockedRatio locked-rotor over rated current that the locked-rotor times belong to, low end
 * @param lockedColdS safe locked-rotor time from ambient temperature
 * @param lockedHotS the same from rated running temperature; at most {@code lockedColdS}
 * @param heatingS time constant while current flows
 * @param coolingS time constant at standstill
 * @param overload factor of rated current that is just carried for ever
 * @param leastRunLevel lowest level of the rotor in rated running that the sheet leaves open; what
 *     a further start is held against
 * @param assumed what the sheet does not say and what was taken for it; one line each
 */
public record MotorHeat(
    double lockedRatio,
    double lockedColdS,
    double lockedHotS,
    Spread heatingS,
    Spread coolingS,
    double overload,
    double leastRunLevel,
    List<String> assumed) {

  /** The usual k of IEC 60255-149 for motors (from memory); the smaller, the stricter. */
  public static final double USUAL_OVERLOAD = 1.05;

  // A maker's time constants are rounded and depend on ambient and mounting. Common practice, no
  // source.
  private static final double GIVEN_WITHIN = 0.2;

  // NEMA MG 1, 12.49 (from memory): motors up to 500 hp and 1 kV stand locked-rotor current for at
  // least 12 s from normal running temperature. Others: 10 s is common practice, no source.
  private static final double STALL_NEMA_S = 12;
  private static final double STALL_OTHER_S = 10;
  private static final double NEMA_LARGEST_W = 500 * 745.7;
  private static final double NEMA_HIGHEST_V = 1000;

  // Only the cold time is given: hot times of 0.4 to 0.9 of it are found. Common practice, no
  // source.
  private static final double LEAST_HOT_SHARE = 0.4;
  private static final double MOST_HOT_SHARE = 0.9;

  // Twice the relative spread of makes about the typical value (analysis.machine.TypicalMotor).
  private static final double GUESSED_RATIO_LOW = Math.exp(-2 * 0.16);

  // Totally enclosed motors of 5 to 1000 kW: a quarter of an hour to an hour. Common practice, no
  // source.
  private static final Spread USUAL_HEATING_S = new Spread(15 * 60, 30 * 60, 60 * 60);

  // Self-ventilated motors cool two to five times slower at standstill. From memory, order of
  // magnitude only.
  private static final double COOLING_LEAST = 2;
  private static final double COOLING_USUAL = 3;
  private static final double COOLING_MOST = 5;

  public MotorHeat {
    if (!(lockedRatio > 0 && lockedHotS > 0 && lockedColdS >= lockedHotS && overload >= 1)) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT,
              "motor heat: locked-rotor ratio %s and times %s s (hot), %s s (cold) must be above 0, hot"
                  + " at most cold, overload factor %s at least 1",
              lockedRatio,
              lockedHotS,
              lockedColdS,
              overload));
    }
    assumed = List.copyOf(assumed);
  }

  /**
   * What a sheet says; null where it is silent.
   *
   * @param typicalRatio locked-rotor ratio usual for such a motor
   * @param heatingMin running time constant, min
   * @param coolingMin standing time constant, min
   */
  public record Sheet(
      double ratedPowerW,
      double ratedVoltageV,
      double typicalRatio,
      @Nullable Double lockedRatio,
      @Nullable Double lockedColdS,
      @Nullable Double lockedHotS,
      @Nullable Double heatingMin,
      @Nullable Double coolingMin) {}

  /** Fills the gaps of a sheet. A hot time above the cold one is taken down to it. */
  public static MotorHeat of(Sheet sheet) {
    List<String> assumed = new ArrayList<>();
    Double ratio = sheet.lockedRatio();
    if (ratio == null) {
      assumed.add(
          text(
              "locked-rotor current not given: %.1f x rated, the low end of what is usual",
              sheet.typicalRatio() * GUESSED_RATIO_LOW));
    }
    double[] times = times(sheet, assumed);
    Double heating = sheet.heatingMin();
    Spread heatingS = heating != null ? Spread.within(60 * heating, GIVEN_WITHIN) : USUAL_HEATING_S;
    if (heating == null) {
      assumed.add(
          "running time constant not given: between 15 and 60 min, the worse end each time");
    }
    Double cooling = sheet.coolingMin();
    Spread coolingS =
        cooling != null
            ? Spread.within(60 * cooling, GIVEN_WITHIN)
            : new Spread(
                COOLING_LEAST * heatingS.low(),
                COOLING_USUAL * heatingS.stated(),
                COOLING_MOST * heatingS.stated());
    if (cooling == null) {
      assumed.add(
          text(
              "standing time constant not given: up to %.0f min, %.0f times the running one",
              coolingS.high() / 60, COOLING_MOST));
    }
    return new MotorHeat(
        ratio != null ? ratio : sheet.typicalRatio() * GUESSED_RATIO_LOW,
        times[1],
        times[0],
        heatingS,
        coolingS,
        USUAL_OVERLOAD,
        sheet.lockedHotS() != null && sheet.lockedColdS() != null
            ? Math.max(1 - MOST_HOT_SHARE, 1 - times[0] / times[1])
            : 1 - MOST_HOT_SHARE,
        assumed);
  }

  private static double[] times(Sheet sheet, List<String> assumed) {
    Double hot = sheet.lockedHotS();
    Double cold = sheet.lockedColdS();
    if (hot != null) {
      // The shortest cold time is the strictest: it leaves the least budget, and after running the
      // hot time is left whatever the cold one is.
      double coldS = cold == null ? hot / MOST_HOT_SHARE : cold;
      if (cold == null) {
        assumed.add(
            text(
                "locked-rotor time from cold not given: %.1f s, the hot one over %.1f",
                coldS, MOST_HOT_SHARE));
      }
      return new double[] {Math.min(hot, coldS), coldS};
    }
    if (cold != null) {
      assumed.add(
          text(
              "locked-rotor time from hot not given: %.1f s, %.1f of the cold one",
              LEAST_HOT_SHARE * cold, LEAST_HOT_SHARE));
      return new double[] {LEAST_HOT_SHARE * cold, cold};
    }
    boolean nema = sheet.ratedPowerW() <= NEMA_LARGEST_W && sheet.ratedVoltageV() <= NEMA_HIGHEST_V;
    double stallS = nema ? STALL_NEMA_S : STALL_OTHER_S;
    assumed.add(
        text(
            "locked-rotor times not given: %.0f s from hot (%s), %.1f s from cold",
            stallS,
            nema ? "NEMA MG 1, 12.49" : "common practice, no source",
            stallS / MOST_HOT_SHARE));
    return new double[] {stallS, stallS / MOST_HOT_SHARE};
  }

  /**
   * Level of the locked-rotor budget after long running at rated load: 1 - hot / cold, so that from
   * there just the hot time is left.
   */
  public double runLevel() {
    return 1 - lockedHotS / lockedColdS;
  }

  /**
   * Share of the locked-rotor budget one start from hot may take: hot / cold, or what the least
   * running level leaves where the sheet does not give both.
   */
  public double hotAllowance() {
    return Math.min(lockedHotS / lockedColdS, 1 - leastRunLevel);
  }

  /** Level of the stator after long running at rated load: 1 / k^2. */
  public double statorRunLevel() {
    return 1 / (overload * overload);
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
