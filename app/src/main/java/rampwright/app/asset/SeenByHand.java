package rampwright.app.asset;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.app.envelope.FigureKey;

/**
 * What a person saw at a trial and noted by hand, with or without a trace: told apart everywhere
 * from what was measured.
 *
 * @param figures values as read off a meter, a display or a watch, in the figures' units
 * @param outcome how the start ended, in the words of the figures; null when not noted
 * @param by who or what it was seen on; null when not noted
 * @param note remark; null when there is none
 */
public record SeenByHand(
    Map<FigureKey, Double> figures,
    @Nullable String outcome,
    @Nullable String by,
    @Nullable String note) {
  public SeenByHand {
    Map<FigureKey, Double> sorted = new EnumMap<>(FigureKey.class);
    sorted.putAll(figures);
    figures = Collections.unmodifiableMap(sorted);
  }
}
