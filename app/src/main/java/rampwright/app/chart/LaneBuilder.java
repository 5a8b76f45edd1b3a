package rampwright.app.chart;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Gathers what a lane shows and fits its axis to it. */
final class LaneBuilder {
  private final String title;
  private final String unit;
  private final Span time;
  private final List<Layer> back = new ArrayList<>();
  private final List<Layer> front = new ArrayList<>();
  private final List<Lane.LegendEntry> legend = new ArrayList<>();
  private double low = Double.POSITIVE_INFINITY;
  private double high = Double.NEGATIVE_INFINITY;
  private Lane.@Nullable RightScale rightScale;

  LaneBuilder(String title, String unit, Span time) {
    this.title = title;
    this.unit = unit;
    this.time = time;
  }

  /** Whether nothing with a value was added. */
  boolean isEmpty() {
    return !(low <= high);
  }

  void include(double value) {
    if (Double.isFinite(value)) {
      low = Math.min(low, value);
      high = Math.max(high, value);
    }
  }

  /** A curve, with a place in the legend unless {@code label} is null. */
  void line(Curve curve, LineLook look, @Nullable String label) {
    reach(curve);
    front.add(Layers.line(curve, look));
    if (label != null) {
      legend.add(Lane.LegendEntry.line(look, label));
    }
  }

  /** A layer that does not stretch the axis, over those added before. */
  void over(Layer layer) {
    front.add(layer);
  }

  /** A layer that does not stretch the axis, beneath all curves. */
  void under(Layer layer) {
    back.add(layer);
  }

  void legend(Lane.LegendEntry entry) {
    legend.add(entry);
  }

  void rightScale(double perUnit, String rightUnit) {
    rightScale = new Lane.RightScale(perUnit, rightUnit);
  }

  void reach(Curve curve) {
    MinMaxColumns all = curve.columns(time, 1);
    include(all.min(0));
    include(all.max(0));
  }

  void reach(MinMaxColumns columns) {
    for (int k = 0; k < columns.columns(); k++) {
      include(columns.min(k));
      include(columns.max(k));
    }
  }

  void reach(PredictedBand band) {
    for (int i = 0; i < band.timeS().length; i++) {
      if (band.timeS()[i] >= time.fromS() && band.timeS()[i] <= time.toS()) {
        include(band.low()[i]);
        include(band.high()[i]);
      }
    }
  }

  Lane build(AxisRange.Fit fit, double weight) {
    List<Layer> layers = new ArrayList<>(back);
    layers.addAll(front);
    return new Lane(
        title,
        AxisRange.of(low, high, unit, fit),
        legend,
        layers,
        weight,
        isEmpty() ? null : rightScale,
        isEmpty() ? "nothing recorded here" : null);
  }
}
