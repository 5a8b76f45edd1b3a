package rampwright.app.envelope;

import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.figure.Outcome;

/** A trial held against its envelope: met, missed, or not assessable, each with its evidence. */
public sealed interface Verdict {
  /** The figures' checks, in the order of the envelope. */
  List<LimitCheck> limits();

  /** The channels' checks, in the order of the envelope. */
  List<CorridorCheck> corridors();

  /** What the start's outcome says against its being met; null when it says nothing. */
  @Nullable String why();

  /** Everything asked was held. */
  record Met(List<LimitCheck> limits, List<CorridorCheck> corridors) implements Verdict {
    @Override
    public @Nullable String why() {
      return null;
    }
  }

  /** At least one thing asked was not held, or the start stalled. */
  record Missed(List<LimitCheck> limits, List<CorridorCheck> corridors, @Nullable String why)
      implements Verdict {}

  /** Nothing was missed, but at least one thing could not be had, or the start was not finished. */
  record NotAssessable(List<LimitCheck> limits, List<CorridorCheck> corridors, @Nullable String why)
      implements Verdict {}

  /** The verdict that follows from the checks: missed before not assessable before met. */
  static Verdict of(List<LimitCheck> limits, List<CorridorCheck> corridors) {
    return of(limits, corridors, Outcome.COMPLETED);
  }

  /**
   * The verdict that follows from the checks and from how the start ended. An envelope is one for a
   * start that reaches full speed: one that stalled has missed it whatever its figures, one that
   * was cut while still getting faster, or that the record does not show to its end, cannot have
   * met it.
   */
  static Verdict of(List<LimitCheck> limits, List<CorridorCheck> corridors, Outcome outcome) {
    String why = against(outcome);
    List<LimitCheck> limitList = List.copyOf(limits);
    List<CorridorCheck> corridorList = List.copyOf(corridors);
    List<Boolean> known =
        Stream.concat(
                limitList.stream().map(LimitCheck::met),
                corridorList.stream().map(CorridorCheck::met))
            .filter(Objects::nonNull)
            .toList();
    if (known.contains(false) || outcome == Outcome.STALLED) {
      return new Missed(limitList, corridorList, why);
    }
    return why != null || known.size() < limitList.size() + corridorList.size()
        ? new NotAssessable(limitList, corridorList, why)
        : new Met(limitList, corridorList);
  }

  private static @Nullable String against(Outcome outcome) {
    return switch (outcome) {
      case COMPLETED, ALREADY_RUNNING -> null;
      case STALLED -> "the start stalled: full speed was not reached";
      case ABORTED -> "the start was aborted: current was cut before full speed";
      case CUT_OFF -> "the record ends before full speed";
    };
  }

  /** True, false, or null for not assessable. */
  default @Nullable Boolean met() {
    if (this instanceof Met) {
      return true;
    }
    return this instanceof Missed ? false : null;
  }

  /** The verdict in words. */
  default String word() {
    if (this instanceof Met) {
      return "met";
    }
    return this instanceof Missed ? "missed" : "not assessable";
  }
}
