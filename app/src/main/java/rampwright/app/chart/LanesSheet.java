package rampwright.app.chart;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** From computed curves to a sheet. */
final class LanesSheet {
  private LanesSheet() {}

  static Sheet of(LanesPlot plot, Ink ink) {
    List<Lane> lanes = new ArrayList<>();
    for (LanesPlot.Strip strip : plot.strips()) {
      LaneBuilder lane = new LaneBuilder(strip.title(), strip.unit(), plot.across());
      Span shaded = plot.shaded();
      if (shaded != null) {
        lane.under(Layers.stretch(shaded, ink.accent, 0.10));
      }
      int n = 0;
      for (LanesPlot.Line line : strip.lines()) {
        line(lane, line, ink.line(n++), plot.across());
      }
      for (LanesPlot.Level level : strip.levels()) {
        lane.include(level.value());
        LineLook look = level.limit() ? new LineLook(ink.missed, ink.hair(1.4)) : ink.guide();
        Layer drawn =
            level.limit()
                ? Layers.level(level.value(), plot.across(), level.word(), level.atTheLeft(), look)
                // Such a level lies close below a limit, whose line would strike its words out.
                : Layers.levelNamedBelow(level.value(), plot.across(), level.word(), look);
        lane.over(drawn);
      }
      lanes.add(lane.build(AxisRange.Fit.FROM_ZERO, strip.weight()));
    }
    return new Sheet(
        plot.heading(),
        lanes,
        plot.across(),
        plot.axisTitle(),
        plot.axisUnit(),
        plot.marks(),
        List.of(),
        List.of(),
        plot.figures());
  }

  private static void line(LaneBuilder lane, LanesPlot.Line line, LineLook look, Span across) {
    @Nullable Curve curve = continuous(line.at(), line.values());
    if (curve == null) {
      return;
    }
    double[] other = line.other();
    if (other != null) {
      lane.under(Layers.between(line.at(), other, line.values(), look.colour(), 0.18));
    }
    // Steps of computed curves are as wide as they like; none of them is a gap.
    lane.line(curve, look, line.label());
    for (int i = 0; i < line.at().length; i++) {
      if (line.at()[i] >= across.fromS() && line.at()[i] <= across.toS()) {
        lane.include(line.values()[i]);
      }
    }
  }

  private static @Nullable Curve continuous(double[] at, double[] values) {
    Curve curve = Curve.of(at, values, 0);
    return curve == null
        ? null
        : new Curve(curve.time(), curve.values(), 0, Double.POSITIVE_INFINITY);
  }
}
