package rampwright.app.chart;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.figure.AnalyzedTrace;
import rampwright.analysis.figure.StartRecord;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.signal.RmsTrack;

/**
 * The supply's dip during a start: line voltages with their level before, their smallest value and
 * the 90 % line.
 *
 * @param heading what stands over and under the chart
 * @param track RMS values; line-to-line voltages are drawn
 * @param start from inception to full speed, or to the record's end
 * @param beforeV level before the start by line ("L1-L2"), V
 * @param minV smallest value during the start by line, V
 * @param declaredV declared supply voltage; null where unknown, then there is no 90 % line
 * @param figures side panel
 */
public record DipPlot(
    Heading heading,
    RmsTrack track,
    Span start,
    Map<String, Double> beforeV,
    Map<String, Double> minV,
    @Nullable Double declaredV,
    List<FigureLine> figures)
    implements ChartRequest {

  /** Figures worth showing beside a dip, in order. */
  public static final List<String> FIGURES =
      List.of(
          "voltage_dip_pct",
          "start_drop_pct",
          "voltage_before_V",
          "voltage_min_V",
          "dip_duration_s",
          "peak_current_ratio",
          "start_time_s");

  public DipPlot {
    beforeV = Map.copyOf(beforeV);
    minV = Map.copyOf(minV);
    figures = List.copyOf(figures);
  }

  /**
   * The dip of one start of an analyzed trace.
   *
   * @param number which start, from 0
   * @throws IllegalArgumentException when there is no such start or it has no inception
   */
  public static DipPlot of(
      Heading heading,
      AnalyzedTrace analyzed,
      int number,
      Rated rated,
      Map<String, Judgement> judgements) {
    var starts = analyzed.figures().starts();
    if (number < 0 || number >= starts.size()) {
      throw new IllegalArgumentException(
          "dip chart: the trace has " + starts.size() + " starts, none with number " + number);
    }
    StartRecord start = starts.get(number);
    Double from = value(start.instants().get("inception_s"));
    if (from == null) {
      throw new IllegalArgumentException("dip chart: this start has no inception");
    }
    Double to = value(start.instants().get("full_speed_s"));
    double[] timeS = analyzed.track().timeS();
    double end = to != null && to > from ? to : timeS.length == 0 ? from : timeS[timeS.length - 1];
    return new DipPlot(
        heading,
        analyzed.track(),
        new Span(from, end > from ? end : from + 1),
        byLine(start.figures().get("voltage_before_V")),
        byLine(start.figures().get("voltage_min_V")),
        rated.supplyV(),
        FigureLine.of(start, FIGURES, judgements));
  }

  private static @Nullable Double value(@Nullable Measured measured) {
    return measured == null ? null : measured.value();
  }

  private static Map<String, Double> byLine(@Nullable Measured measured) {
    Map<String, Double> levels = new LinkedHashMap<>();
    if (measured != null) {
      levels.putAll(measured.phases());
      if (levels.isEmpty() && measured.value() != null && measured.phase() != null) {
        levels.put(measured.phase(), measured.value());
      }
    }
    return levels;
  }
}
