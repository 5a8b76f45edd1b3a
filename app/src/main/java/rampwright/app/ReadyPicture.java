package rampwright.app;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import rampwright.app.chart.FigureLine;
import rampwright.app.chart.Heading;
import rampwright.app.chart.Judgement;
import rampwright.app.chart.LanesPlot;
import rampwright.app.chart.Span;
import rampwright.app.ready.Readiness;
import rampwright.app.ready.ReadyLine;
import rampwright.app.ready.TorqueCourse;
import rampwright.app.usecase.ChartSize;

/** Draws the torque of motor and load along the run-up, and what is left between them. */
final class ReadyPicture {
  private ReadyPicture() {}

  static void render(Readiness readiness, Path target, ChartSize size) throws IOException {
    TorqueCourse course = readiness.course();
    if (course == null) {
      throw new IOException("there is no run-up to draw");
    }
    LanesPlot plot =
        new LanesPlot(
            new Heading(
                readiness.asset().asset().name() + ": torque along the run-up",
                readiness.settings() == null
                    ? ""
                    : String.format(
                        Locale.ROOT,
                        "%s, limit %.2f x rated current, ramp %.1f s (%s)",
                        readiness.settings().control().key(),
                        readiness.settings().currentLimitRatio(),
                        readiness.settings().rampUpS(),
                        readiness.settingsFrom()),
                null,
                Judgement.NONE,
                false,
                "lines: median of what "
                    + readiness.basis()
                    + " leave open; bands: to the cautious 5 % side"),
            "speed, of synchronous",
            "%",
            new Span(0, 100),
            List.of(
                new LanesPlot.Strip(
                    "Torque, of rated",
                    "%",
                    2,
                    List.of(
                        new LanesPlot.Line(
                            "motor", course.speedPct(), course.motorPct(), course.motorLowPct()),
                        new LanesPlot.Line(
                            "load", course.speedPct(), course.loadPct(), course.loadHighPct()),
                        new LanesPlot.Line(
                            "most the limit allows", course.speedPct(), course.limitPct(), null)),
                    List.of()),
                new LanesPlot.Strip(
                    "Margin, 5 % side, none left below 0",
                    "%",
                    1,
                    List.of(
                        new LanesPlot.Line(
                            "motor less load", course.speedPct(), course.marginPct(), null),
                        new LanesPlot.Line(
                            "at the limit", course.speedPct(), course.limitMarginPct(), null)),
                    List.of(new LanesPlot.Level(0, "", true, false)))),
            List.of(),
            null,
            lines(readiness));
    ChartFiles.write(plot, size.widthPx(), size.heightPx(), target);
  }

  /** What holds first, then what is to be looked at, then what the run-up and the heat came to. */
  private static List<FigureLine> lines(Readiness readiness) {
    List<FigureLine> lines = new ArrayList<>();
    for (ReadyLine.State state :
        List.of(ReadyLine.State.HOLD, ReadyLine.State.LOOK, ReadyLine.State.OK)) {
      for (ReadyLine line : readiness.lines()) {
        if (line.state() == state && (state != ReadyLine.State.OK || isOfTheStart(line))) {
          lines.add(
              new FigureLine(
                  line.state().key() + ": " + line.check(),
                  null,
                  "",
                  null,
                  line.state() == ReadyLine.State.HOLD ? Judgement.MISSED : Judgement.NONE,
                  line.text()));
        }
      }
    }
    return lines;
  }

  private static boolean isOfTheStart(ReadyLine line) {
    return switch (line.part()) {
      case START, HEAT -> true;
      case SHEET, STARTER, UNKNOWN, STOP -> false;
    };
  }
}
