package rampwright.app.envelope;

import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** A trial held against its envelope: met, missed, or not assessable, each with its evidence. */
public sealed interface Verdict {
  /** The figures' checks, in the order of the envelope. */
  List<LimitCheck> limits();

  /** The channels' checks, in the order of the envelope. */
  List<CorridorCheck> corridors();

  /** Everything asked was held. */
  record Met(List<LimitCheck> limits, List<CorridorCheck> corridors) implements Verdict {}

  /** At least one thing asked was not held. */
  record Missed(List<LimitCheck> limits, List<CorridorCheck> corridors) implements Verdict {}

  /** Nothing was missed, but at least one thing could not be had. */
  record NotAssessable(List<LimitCheck> limits, List<CorridorCheck> corridors) implements Verdict {}

  /** The verdict that follows from the checks: missed before not assessable before met. */
  static Verdict of(List<LimitCheck> limits, List<CorridorCheck> corridors) {
    List<LimitCheck> limitList = List.copyOf(limits);
    List<CorridorCheck> corridorList = List.copyOf(corridors);
    List<Boolean> known =
        Stream.concat(
                limitList.stream().map(LimitCheck::met),
                corridorList.stream().map(CorridorCheck::met))
            .filter(Objects::nonNull)
            .toList();
    if (known.contains(false)) {
      return new Missed(limitList, corridorList);
    }
    return known.size() < limitList.size() + corridorList.size()
        ? new NotAssessable(limitList, corridorList)
        : new Met(limitList, corridorList);
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
