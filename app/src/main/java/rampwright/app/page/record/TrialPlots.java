package rampwright.app.page.record;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.app.envelope.Corridor;
import rampwright.app.envelope.Envelope;
import rampwright.app.envelope.FigureKey;
import rampwright.app.envelope.Limit;
import rampwright.app.envelope.Polyline;
import rampwright.app.report.TrialCurves;
import rampwright.app.wording.InstantWords;

/** Trials drawn: current, voltage and speed against time, with what the envelope allows. */
final class TrialPlots {
  static final double HEADROOM = 1.08;

  /** Letters of the marks; each stands for one instant in every picture of the record. */
  private static final Map<String, String> LETTERS = letters();

  private TrialPlots() {}

  private static Map<String, String> letters() {
    Map<String, String> letters = new LinkedHashMap<>();
    letters.put("inception_s", "A");
    letters.put("breakaway_s", "B");
    letters.put("full_speed_s", "C");
    letters.put("knee_s", "D");
    letters.put("settled_s", "E");
    letters.put("bypass_s", "F");
    letters.put("stop_begin_s", "G");
    letters.put("release_s", "H");
    letters.put("rest_s", "I");
    return letters;
  }

  /** The pictures of one start. */
  static List<RecordModel.Plot> of(String name, TrialCurves curves, Envelope envelope) {
    List<RecordModel.Plot> plots = new ArrayList<>();
    for (int k = 0; k < curves.windows().size(); k++) {
      TrialCurves.Window window = curves.windows().get(k);
      if (window.highest().size() > 1) {
        String part = curves.windows().size() == 1 ? "start and stop" : k == 0 ? "start" : "stop";
        plots.add(plot(name, part, curves, window, envelope));
      }
    }
    return plots;
  }

  private static RecordModel.Plot plot(
      String name, String part, TrialCurves curves, TrialCurves.Window window, Envelope envelope) {
    List<RecordModel.Box> boxes = new ArrayList<>();
    boxes.add(current(curves, window, envelope));
    if (window.voltageV().size() > 1) {
      boxes.add(voltage(curves, window));
    }
    if (window.speed().size() > 1) {
      boxes.add(speed(curves, window, envelope));
    }
    List<RecordModel.Pair> flags = new ArrayList<>();
    for (TrialCurves.Mark mark : curves.marks()) {
      if (mark.atS() >= window.fromS() && mark.atS() <= window.toS()) {
        flags.add(
            new RecordModel.Pair(
                LETTERS.getOrDefault(mark.key(), "?"), InstantWords.label(mark.key())));
      }
    }
    return new RecordModel.Plot(
        name + ": " + part,
        "Current, and voltage and speed where measured, against time",
        last(boxes, new Plane(window.fromS(), window.toS(), 0, 1).across()),
        flags,
        "Time in s of the trace. Current: line, highest phase; shaded down to the lowest phase. Long"
            + " dashes: what the envelope allows.");
  }

  private static RecordModel.Box current(
      TrialCurves curves, TrialCurves.Window window, Envelope envelope) {
    List<Bound> bounds = bounds(curves, envelope, Corridor.Channel.CURRENT_RATIO);
    Double peak = peakLimit(envelope);
    double high = window.highest().largest();
    if (curves.rated()) {
      high = Math.max(high, peak == null ? 0 : peak);
      for (Bound bound : bounds) {
        high = Math.max(high, bound.largest());
      }
    }
    Plane plane = new Plane(window.fromS(), window.toS(), 0, high > 0 ? high * HEADROOM : 1);
    List<RecordModel.Path> paths = new ArrayList<>(plane.grid());
    if (window.lowest().size() > 1) {
      paths.add(new RecordModel.Path("band", plane.area(window.highest(), window.lowest())));
    }
    marks(paths, plane, curves);
    if (curves.rated()) {
      bounds.forEach(bound -> paths.add(new RecordModel.Path("limit", bound.path(plane))));
      if (peak != null && bounds.isEmpty()) {
        paths.add(new RecordModel.Path("limit", plane.level(peak)));
      }
    }
    paths.add(new RecordModel.Path("line", plane.path(window.highest(), 0)));
    return new RecordModel.Box(
        curves.rated() ? "Current, x rated" : "Current, A",
        "tall",
        paths,
        List.of(),
        plane.up(),
        flags(plane, curves));
  }

  private static RecordModel.Box voltage(TrialCurves curves, TrialCurves.Window window) {
    double high = window.voltageV().largest();
    double low = window.voltageV().smallest();
    double room = Math.max(0.02 * Math.abs(high), 0.15 * (high - low));
    Plane plane =
        new Plane(
            window.fromS(), window.toS(), low - room, high + room > low - room ? high + room : 1);
    List<RecordModel.Path> paths = new ArrayList<>(plane.grid());
    marks(paths, plane, curves);
    paths.add(new RecordModel.Path("line", plane.path(window.voltageV(), 0)));
    return new RecordModel.Box(
        "Lowest line voltage, V", "low", paths, List.of(), plane.up(), List.of());
  }

  private static RecordModel.Box speed(
      TrialCurves curves, TrialCurves.Window window, Envelope envelope) {
    List<Bound> bounds =
        curves.ratedSpeed() ? bounds(curves, envelope, Corridor.Channel.SPEED_PCT) : List.of();
    double high = window.speed().largest();
    for (Bound bound : bounds) {
      high = Math.max(high, bound.largest());
    }
    Plane plane = new Plane(window.fromS(), window.toS(), 0, high > 0 ? high * HEADROOM : 1);
    List<RecordModel.Path> paths = new ArrayList<>(plane.grid());
    marks(paths, plane, curves);
    bounds.forEach(bound -> paths.add(new RecordModel.Path("limit", bound.path(plane))));
    paths.add(new RecordModel.Path("line", plane.path(window.speed(), 0)));
    return new RecordModel.Box(
        curves.ratedSpeed() ? "Speed, % of rated" : "Speed, rpm",
        "low",
        paths,
        List.of(),
        plane.up(),
        List.of());
  }

  /** The boxes, the last of them with the axis they share. */
  static List<RecordModel.Box> last(List<RecordModel.Box> boxes, List<RecordModel.Tick> across) {
    List<RecordModel.Box> all = new ArrayList<>(boxes);
    RecordModel.Box box = all.get(all.size() - 1);
    all.set(
        all.size() - 1,
        new RecordModel.Box(box.title(), box.size(), box.paths(), across, box.up(), box.flags()));
    return all;
  }

  private static void marks(List<RecordModel.Path> paths, Plane plane, TrialCurves curves) {
    for (TrialCurves.Mark mark : curves.marks()) {
      if (plane.holds(mark.atS())) {
        paths.add(new RecordModel.Path("mark", plane.upright(mark.atS())));
      }
    }
  }

  /** Letters above the marks; where marks are close, one above the other. */
  private static List<RecordModel.Tick> flags(Plane plane, TrialCurves curves) {
    List<RecordModel.Tick> flags = new ArrayList<>();
    double before = Double.NEGATIVE_INFINITY;
    int row = 0;
    for (TrialCurves.Mark mark : curves.marks()) {
      if (plane.holds(mark.atS())) {
        double x = plane.x(mark.atS());
        row = x - before < 22 ? (row + 1) % 3 : 0;
        before = x;
        flags.add(
            new RecordModel.Tick(
                plane.left(mark.atS()) + ";top:" + (row * 9 + 1) + "%",
                LETTERS.getOrDefault(mark.key(), "?")));
      }
    }
    return flags;
  }

  private static @Nullable Double peakLimit(Envelope envelope) {
    for (Limit limit : envelope.limits()) {
      if (limit.figure() == FigureKey.PEAK_CURRENT_RATIO) {
        return limit.max();
      }
    }
    return null;
  }

  /** A bound of a corridor, on the trace's time base. */
  private record Bound(Polyline line, double zeroS) {
    double largest() {
      return line.points().stream().mapToDouble(Polyline.Point::value).max().orElse(0);
    }

    String path(Plane plane) {
      StringBuilder d = new StringBuilder();
      List<Polyline.Point> points = line.points();
      for (int i = 0; i < points.size(); i++) {
        plane.point(d, i == 0 ? 'M' : 'L', points.get(i).timeS() + zeroS, points.get(i).value());
      }
      return d.toString();
    }
  }

  private static List<Bound> bounds(
      TrialCurves curves, Envelope envelope, Corridor.Channel channel) {
    List<Bound> bounds = new ArrayList<>();
    for (Corridor corridor : envelope.corridors()) {
      Double zeroS =
          corridor.part() == FigureKey.Part.START ? curves.inceptionS() : curves.stopBeginS();
      if (corridor.channel() == channel && zeroS != null) {
        for (Polyline line : List.of(corridor.upper(), corridor.lower())) {
          if (!line.isEmpty()) {
            bounds.add(new Bound(line, zeroS));
          }
        }
      }
    }
    return bounds;
  }
}
