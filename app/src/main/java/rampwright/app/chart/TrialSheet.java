package rampwright.app.chart;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.signal.RmsTrack;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.Trace;
import rampwright.analysis.trace.TraceKind;

/** From a trial to a sheet. */
final class TrialSheet {
  private final TrialPlot plot;
  private final Ink ink;
  private final int columns;
  private final Span time;

  private TrialSheet(TrialPlot plot, Ink ink, int columns) {
    this.plot = plot;
    this.ink = ink;
    this.columns = columns;
    this.time = window(plot);
  }

  static Sheet of(TrialPlot plot, Ink ink, int columns) {
    return new TrialSheet(plot, ink, columns).sheet();
  }

  private static Span window(TrialPlot plot) {
    if (plot.window() != null) {
      return plot.window();
    }
    Trace trace = plot.trace();
    if (trace.size() >= 2) {
      return aired(trace.time().atS(0), trace.time().atS(trace.size() - 1));
    }
    double[] timeS = plot.track().timeS();
    if (timeS.length >= 2) {
      return aired(timeS[0], timeS[timeS.length - 1]);
    }
    double only = trace.size() == 1 ? trace.time().atS(0) : timeS.length == 1 ? timeS[0] : 0;
    return new Span(only - 0.5, only + 0.5);
  }

  /** A little air, so that ticks on the record's ends keep their labels. */
  private static Span aired(double fromS, double toS) {
    double air = 0.008 * (toS - fromS);
    return new Span(fromS - air, toS + air);
  }

  private Sheet sheet() {
    List<Lane> lanes = new ArrayList<>();
    LaneBuilder current = current();
    LaneBuilder voltage = voltage();
    LaneBuilder speed = speed();
    boolean alone = voltage.isEmpty() && speed.isEmpty();
    lanes.add(current.build(AxisRange.Fit.FROM_ZERO, alone ? 1 : 2.1));
    if (!voltage.isEmpty()) {
      lanes.add(voltage.build(AxisRange.Fit.AROUND, 1));
    }
    if (!speed.isEmpty()) {
      lanes.add(speed.build(AxisRange.Fit.FROM_ZERO, 1));
    }
    return new Sheet(
        plot.heading(), lanes, time, "time", plot.marks(), rail(), List.of(), plot.figures());
  }

  private LaneBuilder current() {
    LaneBuilder lane = new LaneBuilder("Current", "A", time);
    boolean waveform = drawWaveform(lane);
    List<Curve> curves = new ArrayList<>();
    for (int n = 0; n < ChannelName.CURRENTS.size(); n++) {
      ChannelName channel = ChannelName.CURRENTS.get(n);
      Curve curve = Curve.of(plot.track(), channel, 0);
      if (curve != null) {
        lane.line(curve, ink.line(n), channel.phase());
        curves.add(curve);
      }
    }
    if (waveform) {
      lane.legend(
          Lane.LegendEntry.band(new LineLook(Ink.pale(ink.muted, 0.3), ink.hair(1)), "waveform"));
    }
    Double rated = plot.rated().currentA();
    if (rated != null) {
      lane.rightScale(rated, "× In");
      corridors(lane, Corridor.Channel.CURRENT_RATIO, rated, curves);
    }
    return lane;
  }

  private boolean drawWaveform(LaneBuilder lane) {
    boolean any = false;
    if (!isWaveform()) {
      return false;
    }
    // Three over each other are as dense as one alone.
    double opacity = plot.trace().present(ChannelName.CURRENTS).size() > 1 ? 0.18 : 0.35;
    for (int n = 0; n < ChannelName.CURRENTS.size(); n++) {
      Samples samples = plot.trace().channel(ChannelName.CURRENTS.get(n));
      if (samples == null || samples.size() == 0) {
        continue;
      }
      MinMaxColumns reach = MinMaxColumns.of(plot.trace().time(), samples, 0, time, columns);
      lane.reach(reach);
      lane.under(Layers.band(reach, ink.lineColours().get(n), opacity));
      any = true;
    }
    return any;
  }

  /** A trace is drawn behind its track when it has several samples to each value of the track. */
  private boolean isWaveform() {
    if (plot.trace().declaredKind() != null) {
      return plot.trace().declaredKind() == TraceKind.WAVEFORM;
    }
    return plot.track().size() > 0 && plot.trace().size() > 3L * plot.track().size();
  }

  private LaneBuilder voltage() {
    LaneBuilder lane = new LaneBuilder("Voltage", "V", time);
    List<ChannelName> channels =
        has(plot.track(), ChannelName.LINE_VOLTAGES)
            ? ChannelName.LINE_VOLTAGES
            : ChannelName.PHASE_VOLTAGES;
    for (int n = 0; n < channels.size(); n++) {
      Curve curve = Curve.of(plot.track(), channels.get(n), 0);
      if (curve != null) {
        lane.line(curve, ink.line(n), channels.get(n).phase());
      }
    }
    return lane;
  }

  private static boolean has(RmsTrack track, List<ChannelName> channels) {
    return channels.stream().anyMatch(c -> Curve.of(track, c, 0) != null);
  }

  private LaneBuilder speed() {
    LaneBuilder lane = new LaneBuilder("Speed", "rpm", time);
    Curve curve = Curve.of(plot.track(), ChannelName.SPEED, 0);
    if (curve != null) {
      lane.line(curve, ink.plainLine(), null);
      Double rated = plot.rated().speedRpm();
      if (rated != null) {
        lane.rightScale(rated / 100, "%");
        corridors(lane, Corridor.Channel.SPEED_PCT, rated / 100, List.of(curve));
      }
    }
    return lane;
  }

  private void corridors(
      LaneBuilder lane, Corridor.Channel channel, double perUnit, List<Curve> curves) {
    CorridorLayer.add(
        lane,
        plot.corridors().stream().map(this::upToTheStop).toList(),
        channel,
        perUnit,
        part -> instant(part == Corridor.Part.START ? "inception" : "stop begin"),
        curves,
        ink);
  }

  /** What a corridor of the start asks for ends where the stop begins. */
  private Corridor upToTheStop(Corridor corridor) {
    Double inception = instant("inception");
    Double stopBegin = instant("stop begin");
    return corridor.part() != Corridor.Part.START || inception == null || stopBegin == null
        ? corridor
        : corridor.until(stopBegin - inception);
  }

  private @Nullable Double instant(String label) {
    for (Mark mark : plot.marks()) {
      if (mark.label().equals(label)) {
        return mark.atS();
      }
    }
    return null;
  }

  private List<Sheet.RailPiece> rail() {
    List<Sheet.RailPiece> rail = new ArrayList<>();
    Double inception = instant("inception");
    Double fullSpeed = instant("full speed");
    Double stopBegin = instant("stop begin");
    Double release = instant("release");
    Double rest = instant("rest");
    Double startEnd = fullSpeed != null ? fullSpeed : stopBegin;
    piece(rail, "start", inception, startEnd, 1.0);
    if (fullSpeed != null) {
      piece(rail, "run", fullSpeed, stopBegin != null ? stopBegin : Double.valueOf(time.toS()), 0);
    }
    piece(rail, "stop", stopBegin, release, 0.75);
    piece(rail, "run-down", release, rest, 0.3);
    return rail;
  }

  private static void piece(
      List<Sheet.RailPiece> rail,
      String word,
      @Nullable Double from,
      @Nullable Double to,
      double emphasis) {
    if (from != null && to != null && from < to) {
      rail.add(new Sheet.RailPiece(word, new Span(from, to), emphasis));
    }
  }
}
