package rampwright.app.chart;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.figure.StartRecord;
import rampwright.analysis.quantity.Measured;

/**
 * One figure in the side panel.
 *
 * @param label name for a person
 * @param value the number; null when it could not be had, then {@code note} says why
 * @param unit unit symbol
 * @param uncertainty standard uncertainty in {@code unit}; null where it cannot be told
 * @param judgement how it stands against its limit
 * @param note limit and margin, or the reason for a missing value; may be empty
 */
public record FigureLine(
    String label,
    @Nullable Double value,
    String unit,
    @Nullable Double uncertainty,
    Judgement judgement,
    String note) {

  /** A figure as it was measured. */
  public static FigureLine of(String key, Measured figure, Judgement judgement, String note) {
    String why = figure.why();
    return new FigureLine(
        Wording.figure(key),
        figure.value(),
        Wording.unit(key, figure.unit()),
        figure.uncertainty(),
        judgement,
        why != null && note.isEmpty() ? why : note);
  }

  /** The figures among {@code keys} that a start or its stop has, in the order of the keys. */
  public static List<FigureLine> of(
      StartRecord start, List<String> keys, Map<String, Judgement> judgements) {
    List<FigureLine> lines = new ArrayList<>();
    for (String key : keys) {
      Measured figure = start.figures().get(key);
      if (figure == null && start.stop() != null) {
        figure = start.stop().figures().get(key);
      }
      if (figure != null) {
        lines.add(of(key, figure, judgements.getOrDefault(key, Judgement.NONE), ""));
      }
    }
    return List.copyOf(lines);
  }
}
