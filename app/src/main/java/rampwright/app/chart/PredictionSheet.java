package rampwright.app.chart;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.ChannelName;

/** From a prediction to a sheet. */
final class PredictionSheet {
  private static final int MODEL = 1;

  private PredictionSheet() {}

  static Sheet of(PredictionPlot plot, Ink ink) {
    Span time = window(plot);
    TrialCurve measured = plot.measured();
    List<Lane> lanes = new ArrayList<>();
    LaneBuilder current = new LaneBuilder("Current, highest phase", "A", time);
    band(current, plot.currentA(), ink);
    Double ratedA = plot.rated().currentA();
    @Nullable Curve curve =
        measured == null ? null : HighestPhase.of(measured.track(), measured.inceptionS(), 1);
    if (curve != null) {
      current.line(curve, ink.plainLine(), "measured");
    }
    if (ratedA != null) {
      current.rightScale(ratedA, "× In");
      corridors(current, plot, Corridor.Channel.CURRENT_RATIO, ratedA, curve, ink);
    }
    PredictedBand predictedSpeed = plot.speedRpm();
    @Nullable Curve speedCurve =
        measured == null
            ? null
            : Curve.of(measured.track(), ChannelName.SPEED, measured.inceptionS());
    lanes.add(
        current.build(
            AxisRange.Fit.FROM_ZERO, predictedSpeed == null && speedCurve == null ? 1 : 1.5));
    if (predictedSpeed != null || speedCurve != null) {
      LaneBuilder speed = new LaneBuilder("Speed", "rpm", time);
      if (predictedSpeed != null) {
        band(speed, predictedSpeed, ink);
      }
      if (speedCurve != null) {
        speed.line(speedCurve, ink.plainLine(), "measured");
      }
      Double ratedRpm = plot.rated().speedRpm();
      if (ratedRpm != null) {
        speed.rightScale(ratedRpm / 100, "%");
        corridors(speed, plot, Corridor.Channel.SPEED_PCT, ratedRpm / 100, speedCurve, ink);
      }
      lanes.add(speed.build(AxisRange.Fit.FROM_ZERO, 1));
    }
    return new Sheet(
        plot.heading(),
        lanes,
        time,
        "time from inception",
        List.of(new Mark("inception", 0, null, false)),
        List.of(),
        List.of(),
        plot.figures());
  }

  private static void band(LaneBuilder lane, PredictedBand band, Ink ink) {
    lane.reach(band);
    LineLook look = new LineLook(ink.lineColours().get(MODEL), ink.line(1).stroke());
    lane.under(Layers.between(band.timeS(), band.low(), band.high(), look.colour(), 0.24));
    lane.legend(Lane.LegendEntry.band(look.pale(0.3), "predicted, 5 % to 95 %"));
    Curve median = Curve.of(band.timeS(), band.median(), 0);
    if (median != null) {
      lane.line(median, look, "median");
    }
  }

  /** Corridors of the start, which a measured trial is held against up to its stop order. */
  private static void corridors(
      LaneBuilder lane,
      PredictionPlot plot,
      Corridor.Channel channel,
      double perUnit,
      @Nullable Curve curve,
      Ink ink) {
    TrialCurve measured = plot.measured();
    Curve start =
        curve == null || measured == null
            ? null
            : curve.until(measured.stopBeginS() - measured.inceptionS());
    CorridorLayer.add(
        lane,
        plot.corridors(),
        channel,
        perUnit,
        part -> part == Corridor.Part.START ? Double.valueOf(0) : null,
        start == null ? List.of() : List.of(start),
        ink);
  }

  private static Span window(PredictionPlot plot) {
    double from = 0;
    double to = 0;
    PredictedBand speed = plot.speedRpm();
    for (PredictedBand band :
        speed == null ? List.of(plot.currentA()) : List.of(plot.currentA(), speed)) {
      double[] timeS = band.timeS();
      if (timeS.length > 0) {
        from = Math.min(from, timeS[0]);
        to = Math.max(to, timeS[timeS.length - 1]);
      }
    }
    TrialCurve measured = plot.measured();
    if (measured != null && to <= 0 && measured.track().size() > 0) {
      to = measured.track().timeS()[measured.track().size() - 1] - measured.inceptionS();
    }
    from = Math.min(from, -0.04 * to);
    return to > from ? new Span(from, to) : new Span(-0.1, 1);
  }
}
