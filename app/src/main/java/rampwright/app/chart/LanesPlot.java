package rampwright.app.chart;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Computed curves in strips over one axis, which need not be time.
 *
 * @param heading what stands over and under the chart
 * @param axisTitle words for the axis, without unit
 * @param axisUnit its unit
 * @param across the stretch of the axis shown
 * @param strips from top to bottom, at least one
 * @param marks upright lines through all strips
 * @param shaded a stretch of the axis set apart; null for none
 * @param figures side panel
 */
public record LanesPlot(
    Heading heading,
    String axisTitle,
    String axisUnit,
    Span across,
    List<Strip> strips,
    List<Mark> marks,
    @Nullable Span shaded,
    List<FigureLine> figures)
    implements ChartRequest {
  public LanesPlot {
    strips = List.copyOf(strips);
    marks = List.copyOf(marks);
    figures = List.copyOf(figures);
    if (strips.isEmpty()) {
      throw new IllegalArgumentException("a chart without strips");
    }
  }

  /**
   * One strip.
   *
   * @param title name of the quantity
   * @param unit its unit
   * @param weight share of the height
   * @param lines curves, in the order of the legend
   * @param levels values drawn from end to end
   */
  public record Strip(
      String title, String unit, double weight, List<Line> lines, List<Level> levels) {
    public Strip {
      lines = List.copyOf(lines);
      levels = List.copyOf(levels);
    }
  }

  /**
   * A curve, and where it may be instead.
   *
   * @param label name
   * @param at places on the axis, increasing
   * @param values as many values
   * @param other the other edge of a pale band from the values; null for none
   */
  public record Line(String label, double[] at, double[] values, double @Nullable [] other) {}

  /**
   * A value drawn from end to end.
   *
   * @param limit whether it is a limit, drawn in full, rather than a guide
   * @param atTheLeft whether a limit's words stand at its left end
   */
  public record Level(double value, String word, boolean limit, boolean atTheLeft) {}
}
