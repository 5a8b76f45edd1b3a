package rampwright.app;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import rampwright.analysis.heat.HeatPart;
import rampwright.analysis.heat.HeatStanding;
import rampwright.analysis.heat.Levels;
import rampwright.analysis.heat.StartHeat;
import rampwright.app.chart.FigureLine;
import rampwright.app.chart.Heading;
import rampwright.app.chart.Judgement;
import rampwright.app.chart.LanesPlot;
import rampwright.app.chart.Mark;
import rampwright.app.chart.Span;
import rampwright.app.result.HeatResult;
import rampwright.app.usecase.ChartSize;

/** Draws a heat account: levels of rotor and stator against time, the wait, the next start. */
final class HeatPicture {
  private static final double MINUTE_S = 60;
  private static final double LONGEST_PAST_MIN = 240;
  private static final double LEAST_FUTURE_MIN = 10;
  private static final int FUTURE_POINTS = 120;
  private static final int STARTS_SHOWN = 5;
  private static final double CLEAR_OF_LIMIT_PCT = 85;

  private HeatPicture() {}

  static void render(HeatResult result, Path target, ChartSize size) throws IOException {
    ChartFiles.write(plot(result), size.widthPx(), size.heightPx(), target);
  }

  private static LanesPlot plot(HeatResult result) {
    HeatStanding standing = result.standing();
    Double waitS = standing.waitS();
    double waitMin = waitS == null ? 0 : waitS / MINUTE_S;
    double futureMin = Math.max(LEAST_FUTURE_MIN, 1.35 * waitMin);
    List<HeatStanding.Point> points = new ArrayList<>(standing.curve());
    HeatStanding.Point last = points.get(points.size() - 1);
    for (int k = 1; k <= FUTURE_POINTS; k++) {
      double atS = k * futureMin * MINUTE_S / FUTURE_POINTS;
      points.add(
          new HeatStanding.Point(
              atS,
              cooled(last.stated(), atS, standing.statedCoolingS()),
              cooled(last.cautious(), atS, standing.coolingS())));
    }
    double pastMin = Math.min(LONGEST_PAST_MIN, Math.max(5, -points.get(0).atS() / MINUTE_S));
    List<Mark> marks = new ArrayList<>();
    marks.add(new Mark("now", 0, null, false));
    if (waitMin > 0) {
      marks.add(new Mark("next start", waitMin, null, false));
    }
    double fits = 100 * (1 - standing.expectedRotor());
    return new LanesPlot(
        new Heading(
            result.asset().asset().name() + ": heat account",
            subtitle(result),
            null,
            Judgement.NONE,
            false,
            "full lines: cautious reading; the band reaches down to everything as stated"),
        "time from " + result.site().text(result.asOf()),
        "min",
        new Span(-pastMin, futureMin),
        List.of(
            strip(points, "Rotor, locked-rotor budget", true, fits),
            strip(points, "Stator, lasting limit", false, Double.NaN)),
        marks,
        waitMin > 0 ? new Span(0, waitMin) : null,
        figures(result));
  }

  private static String subtitle(HeatResult result) {
    HeatStanding standing = result.standing();
    Double waitS = standing.waitS();
    if (waitS == null) {
      return "no time for a next start: " + standing.why();
    }
    HeatPart.Kind ruledBy = standing.ruledBy();
    return ruledBy == null
        ? "the next start is allowed now"
        : "next start allowed at " + result.site().text(result.at(waitS)) + ": " + ruledBy.key();
  }

  private static Levels cooled(Levels from, double timeS, double timeConstantS) {
    double left = Math.exp(-timeS / timeConstantS);
    return new Levels(from.rotor() * left, from.stator() * left);
  }

  private static LanesPlot.Strip strip(
      List<HeatStanding.Point> points, String title, boolean rotor, double fits) {
    List<HeatStanding.Point> distinct = new ArrayList<>();
    for (HeatStanding.Point point : points) {
      if (!distinct.isEmpty() && point.atS() <= distinct.get(distinct.size() - 1).atS()) {
        distinct.set(distinct.size() - 1, point);
      } else {
        distinct.add(point);
      }
    }
    double[] at = new double[distinct.size()];
    double[] cautious = new double[at.length];
    double[] stated = new double[at.length];
    for (int i = 0; i < at.length; i++) {
      HeatStanding.Point point = distinct.get(i);
      at[i] = point.atS() / MINUTE_S;
      cautious[i] = 100 * (rotor ? point.cautious().rotor() : point.cautious().stator());
      stated[i] = 100 * (rotor ? point.stated().rotor() : point.stated().stator());
    }
    List<LanesPlot.Level> levels = new ArrayList<>();
    levels.add(new LanesPlot.Level(100, "limit", true, cautious[0] < CLEAR_OF_LIMIT_PCT));
    if (fits > 0 && fits < 99.5) {
      levels.add(
          new LanesPlot.Level(
              fits,
              String.format(Locale.ROOT, "a start like the last ones fits below %.0f %%", fits),
              false,
              true));
    }
    return new LanesPlot.Strip(
        title, "%", 1, List.of(new LanesPlot.Line("in use", at, cautious, stated)), levels);
  }

  private static List<FigureLine> figures(HeatResult result) {
    HeatStanding standing = result.standing();
    List<FigureLine> lines = new ArrayList<>();
    for (HeatPart part : standing.parts()) {
      Double waitS = part.waitS();
      double leftS = waitS == null ? 0 : waitS;
      boolean waits = leftS > 0;
      HeatPart.Kind kind = part.kind();
      String label =
          kind.key()
              + (waits ? ": wait" : waitS != null ? ": now" : ": cannot be told")
              + (kind == standing.ruledBy() ? ", rules" : "");
      lines.add(
          new FigureLine(
              label,
              waits ? Double.valueOf(leftS / MINUTE_S) : null,
              "min",
              null,
              Judgement.NONE,
              part.text()));
    }
    List<StartHeat> starts = standing.starts();
    for (StartHeat start :
        starts.subList(Math.max(0, starts.size() - STARTS_SHOWN), starts.size())) {
      lines.add(
          new FigureLine(
              (start.measured() ? "start at " : "told: start at ")
                  + result.site().near(result.at(start.atS()), result.asOf()),
              null,
              "",
              null,
              start.isTooSoon() ? Judgement.MISSED : Judgement.NONE,
              String.format(
                  Locale.ROOT,
                  "took %.0f %% of the locked-rotor budget%s; %s",
                  100 * start.rotorAdded(),
                  start.duty() > 0
                      ? String.format(
                          Locale.ROOT, " and %.0f %% of the starter's duty", 100 * start.duty())
                      : "",
                  start.isTooSoon() ? "before it was allowed" : "in time")));
    }
    return lines;
  }
}
