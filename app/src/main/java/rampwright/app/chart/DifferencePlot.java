package rampwright.app.chart;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Two trials and what the second differs from the first by, aligned at inception.
 *
 * @param heading what stands over and under the chart
 * @param reference the trial compared with
 * @param other the trial compared; the difference is other less reference
 * @param figures side panel, for instance differences of figures
 * @param window stretch to show, time from inception; null for all
 */
public record DifferencePlot(
    Heading heading,
    TrialCurve reference,
    TrialCurve other,
    List<FigureLine> figures,
    @Nullable Span window)
    implements ChartRequest {
  public DifferencePlot {
    figures = List.copyOf(figures);
  }
}
