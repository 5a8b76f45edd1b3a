package rampwright.app.chart;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A prediction with its 5 % to 95 % band and, once the trial was made, what was measured.
 *
 * @param heading what stands over and under the chart
 * @param currentA predicted current of the highest phase, A RMS
 * @param speedRpm predicted speed; null where the model gives none
 * @param measured the trial; null before it was made
 * @param rated nameplate numbers
 * @param corridors bands the channels must stay in
 * @param figures side panel
 */
public record PredictionPlot(
    Heading heading,
    PredictedBand currentA,
    @Nullable PredictedBand speedRpm,
    @Nullable TrialCurve measured,
    Rated rated,
    List<Corridor> corridors,
    List<FigureLine> figures)
    implements ChartRequest {
  public PredictionPlot {
    corridors = List.copyOf(corridors);
    figures = List.copyOf(figures);
  }
}
