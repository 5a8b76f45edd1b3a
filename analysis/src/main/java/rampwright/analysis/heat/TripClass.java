package rampwright.analysis.heat;

import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * An overload relay's trip class: between which times it trips from cold at 7.2 times its setting.
 *
 * <p>Between other currents the relay is taken to follow the thermal equation with k = 1.05; the
 * fast edge is the strictest relay of its class, the slow edge the laxest.
 *
 * <p>Source: IEC 60947-4-1:2018, table of trip classes (from memory). Checked by:
 * TripClassReferenceTest.
 *
 * @param name as written, for example "20" or "20E"
 * @param fastestS it may not trip sooner, s at 7.2 times the setting from cold; excluded
 * @param slowestS it must have tripped by then; included
 */
public record TripClass(String name, double fastestS, double slowestS) {
  /** Current of the class times, times the setting. */
  public static final double CLASS_CURRENT = 7.2;

  /** A relay must not trip at this multiple (IEC 60947-4-1, from memory). */
  public static final double CARRIED = 1.05;

  private static final Map<String, TripClass> ALL =
      Map.ofEntries(
          entry("5", 0.5, 5),
          entry("10A", 2, 10),
          entry("10", 4, 10),
          entry("20", 6, 20),
          entry("30", 9, 30),
          entry("5E", 3, 5),
          entry("10E", 5, 10),
          entry("20E", 10, 20),
          entry("30E", 20, 30),
          entry("40E", 30, 40),
          // Class 40 exists only with the narrow band.
          entry("40", 30, 40));

  private static Map.Entry<String, TripClass> entry(String name, double fastest, double slowest) {
    return Map.entry(name, new TripClass(name, fastest, slowest));
  }

  /** The class of a text such as "20", "class 10A" or "20 E"; null when there is none such. */
  public static @Nullable TripClass parse(String text) {
    String bare = text.toUpperCase(Locale.ROOT).replace("CLASS", "").replaceAll("\\s+", "");
    return ALL.get(bare);
  }

  /** Whether a trip time from cold at 7.2 times the setting belongs to the class. */
  public boolean holds(double tripTimeS) {
    return tripTimeS > fastestS && tripTimeS <= slowestS;
  }

  /** Time constant of the strictest relay of the class, s. */
  public double fastTimeConstantS() {
    return ThermalEquation.timeConstantS(CLASS_CURRENT, CARRIED, fastestS);
  }

  /** Time constant of the laxest relay of the class, s. */
  public double slowTimeConstantS() {
    return ThermalEquation.timeConstantS(CLASS_CURRENT, CARRIED, slowestS);
  }

  /** The next class that trips later; null when there is none. */
  public @Nullable TripClass slower() {
    return switch (name) {
      case "5", "5E" -> ALL.get("10");
      case "10A", "10", "10E" -> ALL.get("20");
      case "20", "20E" -> ALL.get("30");
      case "30", "30E" -> ALL.get("40E");
      default -> null;
    };
  }
}
