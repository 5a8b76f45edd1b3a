package rampwright.app.chart;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.figure.StartRecord;
import rampwright.analysis.quantity.Measured;

/**
 * An instant drawn as a thin upright line with a flag.
 *
 * @param label word on the flag
 * @param atS instant on the trace's time base, s
 * @param uncertaintyS standard uncertainty, s, drawn as a pale stripe; null where it cannot be told
 * @param byHand whether a person put it right; the line is then dashed and the flag says so
 */
public record Mark(String label, double atS, @Nullable Double uncertaintyS, boolean byHand) {

  /** Marks for every instant a start and its stop have. */
  public static List<Mark> of(StartRecord start) {
    List<Mark> marks = new ArrayList<>();
    add(start.instants(), marks);
    if (start.stop() != null) {
      add(start.stop().instants(), marks);
    }
    return List.copyOf(marks);
  }

  private static void add(Map<String, Measured> instants, List<Mark> marks) {
    instants.forEach(
        (key, instant) -> {
          Double atS = instant.value();
          if (atS != null) {
            String rule = instant.rule();
            boolean byHand = rule != null && rule.startsWith("corrected");
            marks.add(new Mark(Wording.instant(key), atS, instant.uncertainty(), byHand));
          }
        });
  }
}
