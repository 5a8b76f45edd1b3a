package rampwright.app.chart;

/** What to draw. */
public sealed interface ChartRequest
    permits TrialPlot, DipPlot, OverlayPlot, DifferencePlot, PredictionPlot, LanesPlot {

  /** What stands over and under the chart. */
  Heading heading();
}
