package rampwright.app.usecase;

import java.time.Duration;
import java.time.Instant;
import org.jspecify.annotations.Nullable;
import rampwright.app.heat.HeatBook;

/**
 * A start nobody recorded, as a person tells it.
 *
 * @param by who says so
 * @param at when it began; null where that is not known: it is taken to have been just now
 * @param lastedS how long it took; null where not known: it takes the whole hot allowance
 * @param ratio its current over rated; null where not known: locked-rotor current
 * @param stoppedAt when the motor was stopped; null where it may still run
 */
public record NotedStart(
    String by,
    @Nullable Instant at,
    @Nullable Double lastedS,
    @Nullable Double ratio,
    @Nullable Instant stoppedAt) {
  private static final double SHORTEST_S = 0.1;
  private static final double LONGEST_S = 3600;
  private static final double LEAST_RATIO = 0.1;
  private static final double MOST_RATIO = 20;

  void check(Instant now, Duration slack) throws UsageProblem {
    PersonsWord.name(by, "a start told by a person");
    Instant began = at;
    Instant stopped = stoppedAt;
    if (began != null && began.isAfter(now.plus(slack))) {
      throw new UsageProblem(
          "--note-start " + began + " is later than now; name the moment it began, or unknown");
    }
    if (stopped != null && stopped.isAfter(now.plus(slack))) {
      throw new UsageProblem("--stopped-at " + stopped + " is later than now");
    }
    if (stopped != null && (began == null || stopped.isBefore(began))) {
      throw new UsageProblem(
          "--stopped-at "
              + stopped
              + (began == null
                  ? " needs the moment the start began: --note-start TIME"
                  : " is before the start at " + began));
    }
    within("--lasted", lastedS, SHORTEST_S, LONGEST_S, "s");
    within("--current-ratio", ratio, LEAST_RATIO, MOST_RATIO, "times rated current");
    if (ratio != null && lastedS == null) {
      throw new UsageProblem("--current-ratio needs --lasted SECONDS: for how long it flowed");
    }
  }

  private static void within(
      String option, @Nullable Double value, double least, double most, String unit)
      throws UsageProblem {
    if (value != null && !(value >= least && value <= most)) {
      throw new UsageProblem(
          option + " " + value + " is not between " + least + " and " + most + " " + unit);
    }
  }

  HeatBook.Noted kept(Instant now, int steps) {
    Instant began = at;
    return new HeatBook.Noted(
        began == null ? now : began, by.strip(), began != null, lastedS, ratio, stoppedAt, steps);
  }
}
