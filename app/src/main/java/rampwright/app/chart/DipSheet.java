package rampwright.app.chart;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.ChannelName;

/** From a dip to a sheet. */
final class DipSheet {
  private static final double LIMIT_SHARE = 0.9;

  private DipSheet() {}

  static Sheet of(DipPlot plot, Ink ink) {
    Span start = plot.start();
    double before = Math.max(1, 0.15 * start.lengthS());
    Span time =
        new Span(start.fromS() - before, start.toS() + Math.max(0.4, 0.15 * start.lengthS()));
    List<Lane> lanes = new ArrayList<>();
    lanes.add(voltage(plot, ink, time, before));
    LaneBuilder current = new LaneBuilder("Current", "A", time);
    for (int n = 0; n < ChannelName.CURRENTS.size(); n++) {
      ChannelName channel = ChannelName.CURRENTS.get(n);
      Curve curve = Curve.of(plot.track(), channel, 0);
      if (curve != null) {
        current.line(curve, ink.line(n), channel.phase());
      }
    }
    if (!current.isEmpty()) {
      lanes.add(current.build(AxisRange.Fit.FROM_ZERO, 1));
    }
    List<Mark> marks =
        List.of(
            new Mark("inception", start.fromS(), null, false),
            new Mark("end of start", start.toS(), null, false));
    return new Sheet(
        plot.heading(), lanes, time, "time", marks, List.of(), List.of(), plot.figures());
  }

  private static Lane voltage(DipPlot plot, Ink ink, Span time, double beforeS) {
    Span start = plot.start();
    LaneBuilder lane = new LaneBuilder("Line voltage", "V", time);
    Span before = new Span(start.fromS() - Math.min(1, beforeS), start.fromS());
    lane.under(Layers.stretch(before, ink.muted, 0.1));
    Double declared = plot.declaredV();
    if (declared != null && Double.isFinite(declared)) {
      double limit = LIMIT_SHARE * declared;
      lane.include(limit);
      lane.over(
          Layers.level(
              limit,
              time,
              "90 % of " + AxisRange.label(declared) + " V",
              true,
              new LineLook(ink.missed, ink.guide().stroke())));
    }
    String worst = worst(plot);
    @Nullable Curve fell = null;
    for (int n = 0; n < ChannelName.LINE_VOLTAGES.size(); n++) {
      ChannelName channel = ChannelName.LINE_VOLTAGES.get(n);
      Curve curve = Curve.of(plot.track(), channel, 0);
      if (curve != null) {
        lane.line(curve, ink.line(n), channel.phase());
        Double level = plot.beforeV().get(channel.phase());
        if (level != null && channel.phase().equals(worst)) {
          lane.include(level);
          lane.over(
              Layers.level(
                  level,
                  new Span(start.fromS(), time.toS()),
                  "before: " + Numbers.value(level, null) + " V",
                  false,
                  ink.guide()));
        }
        if (channel.phase().equals(worst)) {
          fell = curve;
        }
      }
    }
    if (fell != null) {
      // After every line, so that none runs through its words.
      lowest(plot, fell, worst, lane);
    }
    return lane.build(AxisRange.Fit.AROUND, 2.2);
  }

  /** The line that fell farthest from its own level before. */
  private static String worst(DipPlot plot) {
    String worst = "";
    double deepest = Double.POSITIVE_INFINITY;
    for (ChannelName channel : ChannelName.LINE_VOLTAGES) {
      Double before = plot.beforeV().get(channel.phase());
      Double least = plot.minV().get(channel.phase());
      if (before != null && least != null && least / before < deepest) {
        deepest = least / before;
        worst = channel.phase();
      }
    }
    return worst;
  }

  private static void lowest(DipPlot plot, Curve curve, String line, LaneBuilder lane) {
    Double least = plot.minV().get(line);
    Double before = plot.beforeV().get(line);
    if (least == null || before == null) {
      return;
    }
    // Room for the words under the point.
    lane.include(least - 0.12 * Math.abs(before - least));
    double atS = Double.NaN;
    double nearest = Double.POSITIVE_INFINITY;
    int from = curve.firstAtOrAfter(plot.start().fromS());
    int to = curve.firstAtOrAfter(plot.start().toS());
    for (int i = from; i < to; i++) {
      double distance = Math.abs(curve.values().at(i) - least);
      if (distance < nearest) {
        nearest = distance;
        atS = curve.chartS(i);
      }
    }
    if (Double.isFinite(atS)) {
      double dip = 100 * (1 - least / before);
      String words =
          line
              + "  "
              + Numbers.value(least, null)
              + " V, dip "
              + Numbers.value(Math.round(dip * 10) / 10.0, null)
              + " %";
      lane.over(Layers.point(atS, least, words));
    }
  }
}
