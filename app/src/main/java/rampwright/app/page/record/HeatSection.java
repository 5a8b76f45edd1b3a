package rampwright.app.page.record;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import rampwright.analysis.heat.HeatPart;
import rampwright.analysis.heat.HeatStanding;
import rampwright.analysis.heat.Levels;
import rampwright.analysis.heat.StartHeat;
import rampwright.app.report.Curve;
import rampwright.app.report.Had;
import rampwright.app.report.HeatView;
import rampwright.app.report.Report;
import rampwright.app.result.HeatResult;
import rampwright.app.wording.ValueText;

/** The heat account of a record: where the last trial left it, and where it is now. */
final class HeatSection {
  private static final double MINUTE_S = 60;
  private static final double LONGEST_PAST_MIN = 240;
  private static final double LEAST_PAST_MIN = 5;
  private static final double LEAST_FUTURE_MIN = 10;
  private static final int FUTURE_POINTS = 60;
  private static final int PAST_POINTS = 300;

  private HeatSection() {}

  static RecordModel.Heat of(Report report) {
    HeatView then = report.heatThen().value();
    HeatView now = report.heatNow().value();
    List<RecordModel.Part> parts = new ArrayList<>();
    List<String> words = new ArrayList<>();
    List<RecordModel.Plot> plots = new ArrayList<>();
    if (then != null) {
      HeatStanding standing = then.result().standing();
      standing.parts().forEach(part -> parts.add(part(part)));
      words.add(
          standing.startsPerHour() <= 0
              ? "Such starts cannot be repeated: one takes the whole allowance."
              : String.format(
                  Locale.ROOT,
                  "Such starts for ever: at most %.3g an hour, %s of rest between.",
                  standing.startsPerHour(),
                  ValueText.duration(standing.restS())));
      if (standing.hotAssumed()) {
        words.add(
            "Before the first record nothing is known: the motor was taken to be hot from rated"
                + " running.");
      }
      then.result().remarks().forEach(remark -> words.add("Mind: " + remark));
      words.add(
          "A reckoning from traces, no protective device; the makers' rest times and local codes come"
              + " first.");
      if (standing.curve().size() > 1) {
        plots.add(plot(then.result()));
      }
    }
    return new RecordModel.Heat(
        then == null ? report.heatThen().reason() : "",
        sentence(report.heatThen()),
        now == null ? "not to be had: " + report.heatNow().reason() : sentence(report.heatNow()),
        parts,
        words,
        plots);
  }

  private static String sentence(Had<HeatView> had) {
    HeatView view = had.value();
    return view == null
        ? ""
        : view.result().site().text(view.result().asOf()) + ": " + view.sentence();
  }

  private static RecordModel.Part part(HeatPart part) {
    Double stated = part.statedPct();
    Double waitS = part.waitS();
    return new RecordModel.Part(
        part.kind().key(),
        waitS == null && part.usedPct() == 0 ? "-" : ValueText.percent(part.usedPct()) + " %",
        stated == null ? "-" : ValueText.percent(stated) + " %",
        waitS == null ? "cannot be told" : waitS <= 0 ? "at once" : ValueText.duration(waitS),
        part.text(),
        part.kind().source());
  }

  private static RecordModel.Plot plot(HeatResult result) {
    HeatStanding standing = result.standing();
    Double waitS = standing.waitS();
    double waitMin = waitS == null ? 0 : Math.max(0, waitS / MINUTE_S);
    double futureMin = Math.max(LEAST_FUTURE_MIN, 1.35 * waitMin);
    List<HeatStanding.Point> past = standing.curve();
    double pastMin = pastMin(standing);
    Curve rotor = curve(past, standing, futureMin, true);
    Curve stator = curve(past, standing, futureMin, false);
    double high = Math.max(110, 1.05 * Math.max(rotor.largest(), stator.largest()));
    Plane plane = new Plane(-pastMin, futureMin, 0, high);
    List<RecordModel.Path> paths = new ArrayList<>(plane.grid());
    paths.add(new RecordModel.Path("limit", plane.level(100)));
    paths.add(new RecordModel.Path("mark", plane.upright(0)));
    List<RecordModel.Tick> flags = new ArrayList<>();
    flags.add(new RecordModel.Tick(plane.left(0) + ";top:1%", "N"));
    List<RecordModel.Pair> words = new ArrayList<>();
    words.add(new RecordModel.Pair("line", "rotor"));
    words.add(new RecordModel.Pair("dashes", "stator"));
    words.add(new RecordModel.Pair("N", "the last trial ends"));
    if (waitMin > 0) {
      paths.add(new RecordModel.Path("mark", plane.upright(waitMin)));
      flags.add(new RecordModel.Tick(plane.left(waitMin) + ";top:1%", "S"));
      words.add(new RecordModel.Pair("S", "next start allowed"));
    }
    paths.add(new RecordModel.Path("dashes", plane.path(stator, 0)));
    paths.add(new RecordModel.Path("line", plane.path(rotor, 0)));
    return new RecordModel.Plot(
        "Heat in use, % of what is allowed, cautious reading",
        "Heat of rotor and stator against time",
        List.of(new RecordModel.Box("In use, %", "tall", paths, plane.across(), plane.up(), flags)),
        words,
        "Time in min from the end of the last trial. Long dashes: the limit.");
  }

  /** As far back as the starts of the last hours go, and a little before. */
  private static double pastMin(HeatStanding standing) {
    double pastMin = 0;
    for (StartHeat start : standing.starts()) {
      double beforeMin = -start.atS() / MINUTE_S;
      pastMin = beforeMin <= LONGEST_PAST_MIN ? Math.max(pastMin, beforeMin) : pastMin;
    }
    return Math.max(LEAST_PAST_MIN, 1.1 * pastMin);
  }

  private static Curve curve(
      List<HeatStanding.Point> past, HeatStanding standing, double futureMin, boolean rotor) {
    int each = Math.max(1, past.size() / PAST_POINTS);
    List<double[]> points = new ArrayList<>();
    for (int i = 0; i < past.size(); i++) {
      if (i % each == 0 || i == past.size() - 1) {
        double minute = past.get(i).atS() / MINUTE_S;
        if (minute >= -1.2 * LONGEST_PAST_MIN) {
          points.add(new double[] {minute, percent(past.get(i).cautious(), rotor)});
        }
      }
    }
    Levels last = past.get(past.size() - 1).cautious();
    for (int k = 1; k <= FUTURE_POINTS; k++) {
      double minute = k * futureMin / FUTURE_POINTS;
      double left = Math.exp(-minute * MINUTE_S / standing.coolingS());
      points.add(new double[] {minute, left * percent(last, rotor)});
    }
    return Curve.through(
        points.stream().mapToDouble(p -> p[0]).toArray(),
        points.stream().mapToDouble(p -> p[1]).toArray());
  }

  private static double percent(Levels levels, boolean rotor) {
    return 100 * (rotor ? levels.rotor() : levels.stator());
  }
}
