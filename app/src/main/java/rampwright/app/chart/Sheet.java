package rampwright.app.chart;

import java.util.List;

/**
 * A chart ready to be drawn.
 *
 * @param heading what stands over and under it
 * @param lanes from top to bottom, at least one
 * @param time stretch all lanes share
 * @param timeTitle words for the time axis, without unit
 * @param timeUnit unit of the time axis: s, or what a chart over something else has
 * @param marks upright lines through all lanes, in the chart's time
 * @param rail stretches named above the lanes
 * @param legend lines named beside the lanes
 * @param figures figures beside the lanes
 */
record Sheet(
    Heading heading,
    List<Lane> lanes,
    Span time,
    String timeTitle,
    String timeUnit,
    List<Mark> marks,
    List<RailPiece> rail,
    List<Lane.LegendEntry> legend,
    List<FigureLine> figures) {
  Sheet {
    lanes = List.copyOf(lanes);
    marks = List.copyOf(marks);
    rail = List.copyOf(rail);
    legend = List.copyOf(legend);
    figures = List.copyOf(figures);
  }

  /** A sheet over time in seconds. */
  Sheet(
      Heading heading,
      List<Lane> lanes,
      Span time,
      String timeTitle,
      List<Mark> marks,
      List<RailPiece> rail,
      List<Lane.LegendEntry> legend,
      List<FigureLine> figures) {
    this(heading, lanes, time, timeTitle, "s", marks, rail, legend, figures);
  }

  /**
   * A named stretch of a trial.
   *
   * @param word start, run, stop
   * @param part when
   * @param emphasis 0 to 1: how dark it is drawn
   */
  record RailPiece(String word, Span part, double emphasis) {}
}
