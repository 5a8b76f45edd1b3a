package rampwright.app.page.record;

import java.util.ArrayList;
import java.util.List;
import rampwright.app.report.Curve;
import rampwright.app.report.ReportTrial;
import rampwright.app.report.TrialCurves;

/** The first and the last trial over each other, aligned where current begins. */
final class OverlayPlot {
  private OverlayPlot() {}

  /** First and last measured trial over each other; empty where there are no two. */
  static List<RecordModel.Plot> of(List<ReportTrial> trials) {
    List<ReportTrial> drawn =
        trials.stream()
            .filter(trial -> !trial.curves().isEmpty())
            .filter(trial -> trial.curves().get(0).inceptionS() != null)
            .filter(trial -> !trial.curves().get(0).windows().isEmpty())
            .toList();
    if (drawn.size() < 2) {
      return List.of();
    }
    ReportTrial first = drawn.get(0);
    ReportTrial last = drawn.get(drawn.size() - 1);
    TrialCurves a = first.curves().get(0);
    TrialCurves b = last.curves().get(0);
    if (a.rated() != b.rated()) {
      return List.of();
    }
    Overlaid one = Overlaid.of(a);
    Overlaid two = Overlaid.of(b);
    double fromS = Math.min(one.fromS(), two.fromS());
    double toS = Math.max(one.toS(), two.toS());
    List<RecordModel.Box> boxes = new ArrayList<>();
    boxes.add(
        overlaid(
            a.rated() ? "Current, x rated" : "Current, A",
            "tall",
            new double[] {fromS, toS},
            one.window.highest(),
            two.window.highest(),
            one,
            two));
    if (one.window.speed().size() > 1 && two.window.speed().size() > 1) {
      boxes.add(
          overlaid(
              a.ratedSpeed() ? "Speed, % of rated" : "Speed, rpm",
              "low",
              new double[] {fromS, toS},
              one.window.speed(),
              two.window.speed(),
              one,
              two));
    }
    return List.of(
        new RecordModel.Plot(
            "First and last trial, aligned where current begins",
            "Current of the first and the last trial over each other",
            TrialPlots.last(boxes, new Plane(fromS, toS, 0, 1).across()),
            List.of(
                new RecordModel.Pair("dashes", "first, " + first.name()),
                new RecordModel.Pair("line", "last, " + last.name())),
            "Time in s from where current begins."));
  }

  /** A start's first window, counted from where current begins. */
  private record Overlaid(TrialCurves.Window window, double zeroS) {
    static Overlaid of(TrialCurves curves) {
      Double zeroS = curves.inceptionS();
      return new Overlaid(curves.windows().get(0), zeroS == null ? 0 : zeroS);
    }

    double fromS() {
      return window.fromS() - zeroS;
    }

    double toS() {
      return window.toS() - zeroS;
    }
  }

  private static RecordModel.Box overlaid(
      String title,
      String size,
      double[] span,
      Curve first,
      Curve last,
      Overlaid one,
      Overlaid two) {
    double high = Math.max(first.largest(), last.largest());
    Plane plane = new Plane(span[0], span[1], 0, high > 0 ? high * TrialPlots.HEADROOM : 1);
    List<RecordModel.Path> paths = new ArrayList<>(plane.grid());
    paths.add(new RecordModel.Path("dashes", plane.path(first, one.zeroS())));
    paths.add(new RecordModel.Path("line", plane.path(last, two.zeroS())));
    return new RecordModel.Box(title, size, paths, List.of(), plane.up(), List.of());
  }
}
