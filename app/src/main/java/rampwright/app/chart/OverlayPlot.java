package rampwright.app.chart;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Several trials over each other, aligned at inception.
 *
 * @param heading what stands over and under the chart
 * @param trials in the order of the legend
 * @param window stretch to show, time from inception; null for all
 */
public record OverlayPlot(Heading heading, List<TrialCurve> trials, @Nullable Span window)
    implements ChartRequest {
  public OverlayPlot {
    trials = List.copyOf(trials);
  }
}
