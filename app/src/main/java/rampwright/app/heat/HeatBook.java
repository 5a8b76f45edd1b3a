package rampwright.app.heat;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.heat.HeatStretch;

/**
 * What an asset folder keeps of its heat account.
 *
 * <p>Moments are kept as they were told. Where the clock that told them was moved since, a {@link
 * ClockStep} says by how much; what was kept before it is later by that much on the clock of now.
 *
 * @param lastSeen moment the account was last asked at; null before the first time
 * @param mark what the computer's running time was then; null where it tells none
 * @param opened when it was first asked; null before the first time
 * @param steps times that the clock was moved, in order
 * @param cold a person's words that the motor was cold
 * @param noted starts a person says were made without a record
 * @param early starts a person armed before the account allowed them
 * @param traces what the recorded traces were found to hold
 */
public record HeatBook(
    @Nullable Instant lastSeen,
    @Nullable UpTime mark,
    @Nullable Opened opened,
    List<ClockStep> steps,
    List<Cold> cold,
    List<Noted> noted,
    List<Early> early,
    List<Entry> traces) {
  /** A folder without a file. */
  public static final HeatBook EMPTY = new HeatBook(null, List.of(), List.of(), List.of());

  /** A book whose clock was never moved. */
  public HeatBook(
      @Nullable Instant lastSeen, List<Cold> cold, List<Early> early, List<Entry> traces) {
    this(lastSeen, null, null, List.of(), cold, List.of(), early, traces);
  }

  /**
   * How long a computer has been running.
   *
   * @param boot which run of the computer it is
   * @param seconds since it was switched on, sleep included
   */
  public record UpTime(String boot, double seconds) {}

  /**
   * When the account was first asked.
   *
   * @param clock how many steps of the clock were known then
   */
  public record Opened(Instant at, int clock) {}

  /**
   * The clock was moved, or nothing but the clock says that a time has passed.
   *
   * @param at when it was found, by the clock after the step
   * @param movedS by how much it went forward, s; below 0 for back
   * @param witnessed whether the computer's running time shows it
   * @param rightBy who says that the clock was right all along, so that nothing is moved; null
   *     without such a word
   */
  public record ClockStep(Instant at, double movedS, boolean witnessed, @Nullable String rightBy) {}

  /**
   * A person's word that the motor was at ambient temperature.
   *
   * @param at when
   * @param by who says so
   * @param clock how many steps of the clock were known then
   */
  public record Cold(Instant at, String by, int clock) {
    /** A word by a clock that was never moved. */
    public Cold(Instant at, String by) {
      this(at, by, 0);
    }

    private Cold folded(HeatBook done, int steps) {
      return new Cold(done.onClockOfNow(at, clock), by, Math.max(0, clock - steps));
    }
  }

  /**
   * A start nobody recorded, as a person tells it.
   *
   * @param at when it began; where that is not known, when it was told of
   * @param by who says so
   * @param timeKnown whether it is known when it began
   * @param lastedS how long it took; null where not known: the whole hot allowance
   * @param ratio its current over rated; null where not known: locked-rotor current
   * @param stoppedAt when the motor was stopped; null where it may still run
   * @param clock how many steps of the clock were known then
   */
  public record Noted(
      Instant at,
      String by,
      boolean timeKnown,
      @Nullable Double lastedS,
      @Nullable Double ratio,
      @Nullable Instant stoppedAt,
      int clock) {
    private Noted less(int steps) {
      return new Noted(at, by, timeKnown, lastedS, ratio, stoppedAt, clock - steps);
    }
  }

  /**
   * A start armed before its time.
   *
   * @param at when
   * @param reason the word given for it
   * @param waitS how much of the wait was left, s; null when there was no time to be had
   * @param ruledBy the rule that asked to wait
   */
  public record Early(Instant at, String reason, @Nullable Double waitS, String ruledBy) {}

  /**
   * One trace.
   *
   * @param trial name of its folder
   * @param bytes size of the file, to know it again
   * @param modified when the file was last written, to know it again
   * @param at when its first reading was taken
   * @param datedBy how that is known
   * @param stretch what it holds
   * @param clock how many steps of the clock were known when it was first kept
   */
  public record Entry(
      String trial,
      long bytes,
      Instant modified,
      Instant at,
      String datedBy,
      HeatStretch stretch,
      int clock) {
    /** A trace dated by a clock that was never moved. */
    public Entry(
        String trial,
        long bytes,
        Instant modified,
        Instant at,
        String datedBy,
        HeatStretch stretch) {
      this(trial, bytes, modified, at, datedBy, stretch, 0);
    }

    /** When its last reading was taken. */
    public Instant end() {
      return at.plusMillis(Math.round(1000 * stretch.lastsS()));
    }

    /** The same with another date. */
    public Entry dated(Instant other, String by) {
      return new Entry(trial, bytes, modified, other, by, stretch, clock);
    }

    /** The same, with so many steps of the clock known. */
    public Entry keptAt(int steps) {
      return new Entry(trial, bytes, modified, at, datedBy, stretch, steps);
    }

    private Entry less(int steps) {
      return keptAt(clock - steps);
    }
  }

  public HeatBook {
    steps = List.copyOf(steps);
    cold = List.copyOf(cold);
    noted = List.copyOf(noted);
    early = List.copyOf(early);
    traces = List.copyOf(traces);
  }

  /** The entry of a trial; null when it has none. */
  public @Nullable Entry entry(String trial) {
    return traces.stream().filter(entry -> entry.trial().equals(trial)).findFirst().orElse(null);
  }

  /** A moment that was told when so many steps were known, on the clock of now. */
  public Instant onClockOfNow(Instant told, int clock) {
    Duration moved = Duration.ZERO;
    for (ClockStep step : steps.subList(Math.min(clock, steps.size()), steps.size())) {
      if (step.rightBy() == null) {
        moved = moved.plusMillis(Math.round(1000 * step.movedS()));
      }
    }
    return told.plus(moved);
  }

  /** A trace with its date on the clock of now. */
  public Entry onClockOfNow(Entry entry) {
    return entry.dated(onClockOfNow(entry.at(), entry.clock()), entry.datedBy());
  }

  /** Whether anything in it has to cool. */
  public boolean hasHeat() {
    return opened != null || !traces.isEmpty() || !noted.isEmpty();
  }

  public HeatBook with(List<Entry> newTraces) {
    return new HeatBook(lastSeen, mark, opened, steps, cold, noted, early, newTraces);
  }

  public HeatBook withSteps(List<ClockStep> newSteps) {
    return new HeatBook(lastSeen, mark, opened, newSteps, cold, noted, early, traces);
  }

  public HeatBook with(Cold word) {
    return new HeatBook(lastSeen, mark, opened, steps, more(cold, word), noted, early, traces);
  }

  public HeatBook with(Noted start) {
    return new HeatBook(lastSeen, mark, opened, steps, cold, more(noted, start), early, traces);
  }

  public HeatBook with(Early start) {
    return new HeatBook(lastSeen, mark, opened, steps, cold, noted, more(early, start), traces);
  }

  /** The same, asked at a moment; steps that move no start any more are folded into the words. */
  public HeatBook seen(Instant now, @Nullable UpTime up) {
    int least = steps.size();
    for (Entry one : traces) {
      least = Math.min(least, one.clock());
    }
    for (Noted one : noted) {
      least = Math.min(least, one.clock());
    }
    int less = least;
    HeatBook done = withSteps(steps.subList(0, less));
    Opened first = opened;
    return new HeatBook(
        now,
        up,
        first == null
            ? new Opened(now, steps.size() - less)
            : new Opened(
                done.onClockOfNow(first.at(), first.clock()), Math.max(0, first.clock() - less)),
        steps.subList(less, steps.size()),
        cold.stream().map(one -> one.folded(done, less)).toList(),
        noted.stream().map(one -> one.less(less)).toList(),
        early,
        traces.stream().map(one -> one.less(less)).toList());
  }

  private static <T> List<T> more(List<T> list, T one) {
    List<T> longer = new ArrayList<>(list);
    longer.add(one);
    return longer;
  }
}
