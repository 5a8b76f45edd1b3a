package rampwright.app.usecase;

import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.app.heat.HeatBook;

/**
 * Whether the time that the clock says has passed since the account was last asked has passed. What
 * nothing but the clock says is not credited: a clock set forward must not cool a motor.
 *
 * <p>While the computer stays on, its running time tells how long it was, and a clock moved either
 * way is put right. When it was switched off meanwhile, or is another computer, only a person can
 * say that its clock is right. Where a computer tells no running time, a clock set forward goes
 * unseen.
 */
final class ClockCheck {
  /** Clocks of recorder and reader may differ by so much without a word. */
  static final Duration SLACK = Duration.ofSeconds(2);

  /** A clock that is being slewed gains or loses no more: 500 ppm, twice. */
  private static final double SLEW = 1e-3;

  private ClockCheck() {}

  /**
   * The account's book on the clock of now.
   *
   * @param book with any step of the clock that was found
   * @param now the clock's time
   * @param up running time of the computer; null where it tells none
   * @param blind whether the computer should tell its running time and does not
   */
  record Checked(HeatBook book, Instant now, HeatBook.@Nullable UpTime up, boolean blind) {
    /** The book with what is kept of this moment. */
    HeatBook kept(HeatBook after) {
      return after.seen(now, up);
    }
  }

  static Checked of(HeatBook book, InstantSource clock) {
    HeatBook.UpTime up = clock instanceof UpClock machine ? machine.up() : null;
    boolean blind = clock instanceof UpClock && up == null;
    Instant now = clock.instant().truncatedTo(ChronoUnit.MILLIS);
    Instant seen = book.lastSeen();
    if (seen == null || !book.hasHeat()) {
      return new Checked(book, now, up, blind);
    }
    double toldS = seconds(Duration.between(seen, now));
    HeatBook.UpTime mark = book.mark();
    double passedS = Double.NaN;
    if (up != null && mark != null && up.boot().equals(mark.boot())) {
      passedS = up.seconds() - mark.seconds();
    }
    boolean witnessed = passedS >= 0;
    double slackS = SLACK.toMillis() / 1000.0 + (witnessed ? SLEW * passedS : 0);
    // Without any running time a clock that went forward has to be believed.
    boolean believed = !witnessed && up == null && toldS >= 0;
    double movedS = witnessed ? toldS - passedS : toldS;
    if (believed || Math.abs(movedS) <= slackS) {
      // Never backwards: within the slack no time has passed.
      return new Checked(book, now.isBefore(seen) ? seen : now, up, blind);
    }
    List<HeatBook.ClockStep> steps = new ArrayList<>(book.steps());
    steps.add(new HeatBook.ClockStep(now, movedS, witnessed, null));
    return new Checked(book.withSteps(steps), now, up, blind);
  }

  /** Whether a date that was first met now was told before the step that was found now. */
  static int stepsKnown(HeatBook before, HeatBook checked, Instant dated, Instant now) {
    int known = checked.steps().size();
    if (known == before.steps().size()) {
      return known;
    }
    double movedS = checked.steps().get(known - 1).movedS();
    Instant oldNow = now.minusMillis(Math.round(1000 * movedS));
    return movedS > 0 && !dated.isAfter(oldNow) ? known - 1 : known;
  }

  /**
   * How many steps count as known where a person tells of a start: by which clock he read the
   * moment is not known, and the latest it can have been is the hottest.
   */
  static int latest(HeatBook book, Instant told, Instant now) {
    int best = book.steps().size();
    for (int k = best - 1; k >= 0; k--) {
      Instant at = book.onClockOfNow(told, k);
      if (!at.isAfter(now.plus(SLACK)) && at.isAfter(book.onClockOfNow(told, best))) {
        best = k;
      }
    }
    return best;
  }

  /** The same of a word that the motor was cold: the earliest it can have been is the hottest. */
  static int earliest(HeatBook book, Instant told) {
    int best = book.steps().size();
    for (int k = best - 1; k >= 0; k--) {
      if (book.onClockOfNow(told, k).isBefore(book.onClockOfNow(told, best))) {
        best = k;
      }
    }
    return best;
  }

  /** What a person should know of the steps that still move a start. */
  static List<String> remarks(HeatBook book, String folder) {
    List<String> remarks = new ArrayList<>();
    for (int k = 0; k < book.steps().size(); k++) {
      HeatBook.ClockStep step = book.steps().get(k);
      int number = k;
      HeatBook.Opened opened = book.opened();
      boolean counts =
          book.traces().stream().anyMatch(one -> one.clock() <= number)
              || book.noted().stream().anyMatch(one -> one.clock() <= number)
              || (opened != null && opened.clock() <= number && book.traces().isEmpty());
      if (!counts || step.rightBy() != null) {
        continue;
      }
      String size = size(Math.abs(step.movedS()));
      if (step.witnessed()) {
        remarks.add(
            "the clock was set "
                + (step.movedS() > 0 ? "forward" : "back")
                + " by "
                + size
                + ": earlier starts are moved with it, only the time that really passed has cooled");
      } else if (step.movedS() > 0) {
        remarks.add(
            size
                + " of standing are not credited: the computer was switched off meanwhile or is another"
                + " one, and only its clock says that they passed. If date and time are right, say so:"
                + " heat "
                + folder
                + " --clock-right --by NAME");
      } else {
        remarks.add(
            "the clock is "
                + size
                + " behind the last time this account was asked: set back? No cooling is credited for"
                + " the time between");
      }
    }
    return remarks;
  }

  private static String size(double lastsS) {
    long minutes = Math.round(lastsS / 60);
    return lastsS < 120
        ? String.format(Locale.ROOT, "%.0f s", lastsS)
        : minutes < 120
            ? minutes + " min"
            : minutes < 48 * 60
                ? minutes / 60 + " h " + minutes % 60 + " min"
                : minutes / (24 * 60) + " days";
  }

  private static double seconds(Duration duration) {
    return duration.toMillis() / 1000.0;
  }
}
