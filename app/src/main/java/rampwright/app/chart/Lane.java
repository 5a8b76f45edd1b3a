package rampwright.app.chart;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One strip of a chart: a quantity over the chart's time.
 *
 * @param title name of the quantity
 * @param range values of its axis
 * @param legend lines it holds
 * @param layers from back to front
 * @param weight share of the height
 * @param rightScale second scale of the same axis; null when there is none
 * @param empty what to say when there is nothing to draw; null when there is
 */
record Lane(
    String title,
    AxisRange range,
    List<LegendEntry> legend,
    List<Layer> layers,
    double weight,
    @Nullable RightScale rightScale,
    @Nullable String empty) {
  Lane {
    legend = List.copyOf(legend);
    layers = List.copyOf(layers);
  }

  /**
   * A scale at the right edge.
   *
   * @param perUnit values of the lane's axis in one unit of this scale
   * @param unit its unit
   */
  record RightScale(double perUnit, String unit) {}

  /**
   * A line and its name.
   *
   * @param look how it is drawn
   * @param band whether it is a band rather than a line
   * @param label name
   * @param note one line more, where the legend is a list; may be empty
   */
  record LegendEntry(LineLook look, boolean band, String label, String note) {
    static LegendEntry line(LineLook look, String label) {
      return new LegendEntry(look, false, label, "");
    }

    static LegendEntry band(LineLook look, String label) {
      return new LegendEntry(look, true, label, "");
    }
  }
}
