package rampwright.app.chart;

import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.figure.AnalyzedTrace;
import rampwright.analysis.signal.RmsTrack;
import rampwright.analysis.trace.Trace;

/**
 * One trial: currents with the corridor, voltages and speed beneath, a mark for each instant, the
 * figures beside it.
 *
 * @param heading what stands over and under the chart
 * @param trace the samples; a waveform's currents are drawn pale behind their RMS
 * @param track RMS values of the trace
 * @param rated nameplate numbers
 * @param marks instants; those named "inception" and "stop begin" also place the corridors
 * @param corridors bands the channels must stay in
 * @param figures side panel, most important first
 * @param window stretch to show; null for the whole record
 */
public record TrialPlot(
    Heading heading,
    Trace trace,
    RmsTrack track,
    Rated rated,
    List<Mark> marks,
    List<Corridor> corridors,
    List<FigureLine> figures,
    @Nullable Span window)
    implements ChartRequest {
  public TrialPlot {
    marks = List.copyOf(marks);
    corridors = List.copyOf(corridors);
    figures = List.copyOf(figures);
  }

  /**
   * One start of an analyzed trace.
   *
   * @param number which start, from 0; without such a start nothing is marked
   */
  public static TrialPlot of(
      Heading heading,
      Trace trace,
      AnalyzedTrace analyzed,
      int number,
      Rated rated,
      List<Corridor> corridors,
      List<FigureLine> figures) {
    var starts = analyzed.figures().starts();
    List<Mark> marks = number < starts.size() ? Mark.of(starts.get(number)) : List.of();
    return new TrialPlot(heading, trace, analyzed.track(), rated, marks, corridors, figures, null);
  }

  /** The same trial over another stretch of time. */
  public TrialPlot within(Span newWindow) {
    return new TrialPlot(heading, trace, track, rated, marks, corridors, figures, newWindow);
  }
}
