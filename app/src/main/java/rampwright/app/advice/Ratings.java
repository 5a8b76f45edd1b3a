package rampwright.app.advice;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * What motor and starter bear in one start, from their plates.
 *
 * <p>Common practice: the motor's allowed heat is its locked-rotor time from hot times its
 * locked-rotor current squared; the starter's is the overload of its rating index (IEC 60947-4-2)
 * for its time. Neither remembers earlier starts: that is the heat account's.
 *
 * @param motorAllowsS largest i2t of one start over rated current squared, s; null when not known
 * @param motorSource what that rests on, in words
 * @param starterRatio the starter's rated current over the motor's, in line current; null without
 * @param overload current of the rating index over the starter's rated current; null without
 * @param overloadS how long it bears that
 * @param startsPerHour allowed by the motor's maker; null when not known
 */
public record Ratings(
    @Nullable Double motorAllowsS,
    String motorSource,
    @Nullable Double starterRatio,
    @Nullable Double overload,
    double overloadS,
    @Nullable Double startsPerHour) {
  /** Nothing is known. */
  public static final Ratings NONE = new Ratings(null, "", null, null, 0, null);

  private static final double BINDS = 0.9;
  private static final double SECONDS_PER_HOUR = 3600;

  /**
   * What a start uses of each rating, in words, and what could not be checked.
   *
   * @param run the start on the most likely model
   */
  List<String> cautions(Rehearsal run) {
    List<String> out = new ArrayList<>();
    for (Requirement each : requirements()) {
      if (each instanceof RatingRequirement rating && run.run().completed()) {
        double used = rating.used(run);
        out.add(
            String.format(
                Locale.ROOT,
                "%s%s: %.0f %%, %s.",
                used > BINDS ? "At its rating: " : "",
                rating.label(),
                100 * used,
                rating.show()));
      }
    }
    if (motorAllowsS == null) {
      out.add(
          "Not checked: the motor's heat; give locked_rotor_time_hot_s and"
              + " locked_rotor_current_ratio.");
    }
    if (overload == null) {
      out.add("Not checked: the starter's overload; give its rating_index.");
    }
    Double starts = startsPerHour;
    if (starts != null) {
      out.add(
          String.format(
              Locale.ROOT,
              "The motor's maker allows %s starts an hour: one every %.0f s at most.",
              Wording.number(starts),
              SECONDS_PER_HOUR / starts));
    }
    return out;
  }

  /** Each as a requirement on a start. */
  List<Requirement> requirements() {
    List<Requirement> out = new ArrayList<>();
    Double motor = motorAllowsS;
    if (motor != null) {
      out.add(new RatingRequirement.MotorHeat(motor, motorSource));
    }
    Double ratio = starterRatio;
    Double times = overload;
    if (ratio != null && times != null && ratio > 0) {
      out.add(new RatingRequirement.StarterDuty(ratio, times, overloadS));
    }
    return out;
  }
}
