package rampwright.app;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.AtomicFile;
import rampwright.acquisition.toml.PlainNumber;
import rampwright.analysis.figure.MotorContext;
import rampwright.analysis.figure.StartRecord;
import rampwright.analysis.quantity.Measured;
import rampwright.app.advice.Advice;
import rampwright.app.advice.Course;
import rampwright.app.advice.SettingWords;
import rampwright.app.chart.ChartRequest;
import rampwright.app.chart.ChartStyle;
import rampwright.app.chart.Corridor;
import rampwright.app.chart.DifferencePlot;
import rampwright.app.chart.DipPlot;
import rampwright.app.chart.FigureLine;
import rampwright.app.chart.Format;
import rampwright.app.chart.Heading;
import rampwright.app.chart.Judgement;
import rampwright.app.chart.OverlayPlot;
import rampwright.app.chart.PredictedBand;
import rampwright.app.chart.PredictionPlot;
import rampwright.app.chart.Rated;
import rampwright.app.chart.TrialCharts;
import rampwright.app.chart.TrialCurve;
import rampwright.app.chart.TrialPlot;
import rampwright.app.envelope.FigureKey;
import rampwright.app.envelope.Limit;
import rampwright.app.envelope.LimitCheck;
import rampwright.app.envelope.Polyline;
import rampwright.app.envelope.Verdict;
import rampwright.app.usecase.AdviseAsset;
import rampwright.app.usecase.ChartRenderer;
import rampwright.app.usecase.ChartSize;

/** Draws what a use case asks for with the chart package, and writes it whole or not at all. */
final class ChartFiles implements ChartRenderer {
  private static final List<FigureKey> SHOWN =
      List.of(
          FigureKey.START_TIME,
          FigureKey.BREAKAWAY_DELAY,
          FigureKey.PEAK_CURRENT,
          FigureKey.PEAK_CURRENT_RATIO,
          FigureKey.CREST_CURRENT,
          FigureKey.RMS_CURRENT_RATIO,
          FigureKey.I2T_RATIO,
          FigureKey.MOTOR_HEAT_COLD,
          FigureKey.VOLTAGE_DIP,
          FigureKey.RUN_CURRENT,
          FigureKey.STOP_TIME,
          FigureKey.CONTROLLED_TIME,
          FigureKey.STOP_DECELERATION,
          FigureKey.PIPE_PERIODS);

  @Override
  public void render(Request request) throws IOException {
    ChartRequest plot;
    try {
      plot = plot(request);
    } catch (IllegalArgumentException e) {
      throw new IOException(e.getMessage(), e);
    }
    write(plot, request.widthPx(), request.heightPx(), request.target());
  }

  /** Draws a prediction, with the last trial where there is one. */
  static void predicted(AdviseAsset.Advised advised, Path target, ChartSize size)
      throws IOException {
    Advice advice = advised.advice();
    Course current = advice.currentA();
    Course speed = advice.speedRpm();
    if (current == null) {
      throw new IOException("the model gives no course to draw for these settings");
    }
    Charted last = advised.charted();
    List<TrialCurve> curves = last == null ? List.of() : curves(List.of(last));
    MotorContext motor = advised.asset().asset().context();
    Double chance = advice.chanceAllMet();
    write(
        new PredictionPlot(
            new Heading(
                advised.asset().asset().name() + ": predicted trial",
                SettingWords.line(advice.settings()),
                null,
                Judgement.NONE,
                last != null && isInvented(last),
                chance == null
                    ? ""
                    : String.format(
                        Locale.ROOT,
                        "chance that one trial meets every limit: %.0f %%",
                        100 * chance)),
            band(current),
            speed == null ? null : band(speed),
            curves.isEmpty() ? null : curves.get(0),
            rated(motor),
            corridors(advised.asset().asset().envelope().corridors()),
            predictedLines(advised)),
        size.widthPx(),
        size.heightPx(),
        target);
  }

  private static PredictedBand band(Course course) {
    return new PredictedBand(course.timeS(), course.low(), course.median(), course.high());
  }

  private static List<FigureLine> predictedLines(AdviseAsset.Advised advised) {
    List<FigureLine> lines = new ArrayList<>();
    for (FigureKey key : SHOWN) {
      Advice.Range range = advised.advice().predicted().get(key.key());
      if (range != null && Math.abs(range.median()) > 1e-3) {
        Limit limit = advised.limit(key.key());
        String spread = String.format(Locale.ROOT, "%.3g to %.3g", range.low(), range.high());
        lines.add(
            new FigureLine(
                key.label(),
                range.median(),
                key.unit(),
                range.spread(),
                limit == null ? Judgement.NONE : judgement(limit, range),
                limit == null ? spread : spread + "; asked: " + asked(limit)));
      }
    }
    return lines;
  }

  /** Met where nine trials in ten are inside, missed where most are not; else it is open. */
  private static Judgement judgement(Limit limit, Advice.Range range) {
    if (!limit.allows(range.median())) {
      return Judgement.MISSED;
    }
    return limit.allows(range.low()) && limit.allows(range.high()) ? Judgement.MET : Judgement.NONE;
  }

  static void write(ChartRequest plot, int widthPx, int heightPx, Path target) throws IOException {
    boolean vector = target.toString().toLowerCase(Locale.ROOT).endsWith(".svg");
    byte[] picture;
    try {
      ChartStyle style = new ChartStyle(widthPx, heightPx, ChartStyle.Theme.LIGHT);
      picture = TrialCharts.render(plot, style, vector ? Format.SVG : Format.PNG);
    } catch (IllegalArgumentException e) {
      throw new IOException(e.getMessage(), e);
    } catch (InternalError | NoClassDefFoundError | UnsatisfiedLinkError e) {
      throw new IOException(
          "this machine has no fonts to draw with; install fontconfig and a font (Debian: fontconfig,"
              + " fonts-dejavu-core)",
          e);
    }
    AtomicFile.write(target, picture);
  }

  private static ChartRequest plot(Request request) {
    Charted first = request.trials().get(0);
    return switch (request.picture()) {
      case TRIAL ->
          TrialPlot.of(
              heading(first),
              first.trace(),
              first.analyzed(),
              0,
              rated(first.motor()),
              corridors(request.envelope().corridors()),
              figures(first));
      case DIP ->
          DipPlot.of(heading(first), first.analyzed(), 0, rated(first.motor()), judgements(first));
      case OVERLAY ->
          new OverlayPlot(overlayHeading(request.trials()), curves(request.trials()), null);
      case DIFFERENCE -> {
        List<TrialCurve> curves = curves(request.trials());
        if (curves.size() != 2) {
          throw new IllegalArgumentException(
              "a difference needs two trials that both show a start");
        }
        yield new DifferencePlot(
            overlayHeading(request.trials()),
            curves.get(0),
            curves.get(1),
            differences(request.trials()),
            null);
      }
    };
  }

  private static Heading heading(Charted trial) {
    StartRecord start = start(trial);
    Verdict verdict = trial.verdict();
    return new Heading(
        trial.name(),
        start == null ? "no start in this trace" : "",
        start == null ? null : start.outcome().key(),
        verdict == null ? Judgement.NONE : judgement(verdict.met()),
        isInvented(trial),
        "");
  }

  private static Heading overlayHeading(List<Charted> trials) {
    return new Heading(
        commonName(trials) + trials.size() + " trials, aligned where current begins",
        "",
        null,
        Judgement.NONE,
        trials.stream().anyMatch(ChartFiles::isInvented),
        "");
  }

  /** The asset all of several trials are of, as "name: "; empty when they are not of one. */
  private static String commonName(List<Charted> trials) {
    String first = trials.get(0).name();
    int end = first.indexOf(", ");
    if (trials.size() < 2 || end < 0) {
      return "";
    }
    String asset = first.substring(0, end + 2);
    return trials.stream().allMatch(trial -> trial.name().startsWith(asset))
        ? first.substring(0, end) + ": "
        : "";
  }

  private static boolean isInvented(Charted trial) {
    return trial.trace().provenance().notes().stream()
        .anyMatch(note -> note.toLowerCase(Locale.ROOT).contains("invented"));
  }

  private static @Nullable StartRecord start(Charted trial) {
    List<StartRecord> starts = trial.analyzed().figures().starts();
    return starts.isEmpty() ? null : starts.get(0);
  }

  private static Judgement judgement(@Nullable Boolean met) {
    if (met == null) {
      return Judgement.NOT_ASSESSABLE;
    }
    return met ? Judgement.MET : Judgement.MISSED;
  }

  private static Map<String, Judgement> judgements(Charted trial) {
    Map<String, Judgement> judgements = new HashMap<>();
    Verdict verdict = trial.verdict();
    if (verdict != null) {
      for (LimitCheck check : verdict.limits()) {
        judgements.put(check.limit().figure().key(), judgement(check.met()));
      }
    }
    return judgements;
  }

  /** The figures worth a line: those that were had, and those that were asked for. */
  private static List<FigureLine> figures(Charted trial) {
    StartRecord start = start(trial);
    if (start == null) {
      return List.of();
    }
    Map<String, Judgement> judgements = judgements(trial);
    List<FigureLine> lines = new ArrayList<>();
    for (FigureKey key : SHOWN) {
      Measured figure = figure(start, key.key());
      if (figure != null && (figure.isPresent() || judgements.containsKey(key.key()))) {
        lines.add(
            FigureLine.of(
                key.key(),
                figure,
                judgements.getOrDefault(key.key(), Judgement.NONE),
                note(trial, key.key())));
      }
    }
    return lines;
  }

  private static String note(Charted trial, String key) {
    Verdict verdict = trial.verdict();
    if (verdict != null) {
      for (LimitCheck check : verdict.limits()) {
        if (check.limit().figure().key().equals(key) && check.value() != null) {
          boolean both = check.limit().min() != null && check.limit().max() != null;
          return (both ? "limits " : "") + asked(check.limit());
        }
      }
    }
    return "";
  }

  private static String asked(Limit limit) {
    Double min = limit.min();
    Double max = limit.max();
    if (min != null && max != null) {
      return PlainNumber.of(min) + " to " + PlainNumber.of(max);
    }
    return max != null
        ? "at most " + PlainNumber.of(max)
        : "at least " + PlainNumber.of(min == null ? 0 : min);
  }

  private static @Nullable Measured figure(StartRecord start, String key) {
    Measured figure = start.figures().get(key);
    return figure == null && start.stop() != null ? start.stop().figures().get(key) : figure;
  }

  private static List<FigureLine> differences(List<Charted> trials) {
    StartRecord a = start(trials.get(0));
    StartRecord b = start(trials.get(1));
    List<FigureLine> lines = new ArrayList<>();
    if (a == null || b == null) {
      return lines;
    }
    for (FigureKey key : SHOWN) {
      Measured one = figure(a, key.key());
      Measured two = figure(b, key.key());
      Double first = one == null ? null : one.value();
      Double second = two == null ? null : two.value();
      if (one != null && two != null && first != null && second != null) {
        Double u1 = one.uncertainty();
        Double u2 = two.uncertainty();
        lines.add(
            new FigureLine(
                key.label(),
                second - first,
                key.unit(),
                u1 == null || u2 == null ? null : Math.hypot(u1, u2),
                Judgement.NONE,
                String.format(Locale.ROOT, "%.4g to %.4g", first, second)));
      }
    }
    return lines;
  }

  private static List<TrialCurve> curves(List<Charted> trials) {
    List<TrialCurve> curves = new ArrayList<>();
    int common = commonName(trials).length();
    for (Charted trial : trials) {
      StartRecord start = start(trial);
      Measured inception = start == null ? null : start.instants().get("inception_s");
      Double atS = inception == null ? null : inception.value();
      if (start != null && atS != null) {
        curves.add(
            new TrialCurve(
                trial.name().substring(common),
                start.outcome().key(),
                trial.analyzed().track(),
                atS,
                stopBeginS(start),
                rated(trial.motor())));
      }
    }
    if (curves.isEmpty()) {
      throw new IllegalArgumentException(
          "none of the traces shows where current begins: nothing to align");
    }
    return curves;
  }

  private static double stopBeginS(StartRecord start) {
    Measured begin = start.stop() == null ? null : start.stop().instants().get("stop_begin_s");
    Double atS = begin == null ? null : begin.value();
    return atS == null ? Double.NaN : atS;
  }

  private static Rated rated(MotorContext motor) {
    return new Rated(motor.ratedCurrentA(), motor.ratedSpeedRpm(), motor.supplyVoltageV());
  }

  private static List<Corridor> corridors(List<rampwright.app.envelope.Corridor> all) {
    List<Corridor> corridors = new ArrayList<>();
    for (rampwright.app.envelope.Corridor asked : all) {
      corridors.add(
          new Corridor(
              asked.channel() == rampwright.app.envelope.Corridor.Channel.CURRENT_RATIO
                  ? Corridor.Channel.CURRENT_RATIO
                  : Corridor.Channel.SPEED_PCT,
              asked.part() == FigureKey.Part.START ? Corridor.Part.START : Corridor.Part.STOP,
              corners(asked.upper()),
              corners(asked.lower())));
    }
    return corridors;
  }

  private static List<Corridor.Corner> corners(Polyline line) {
    return line.points().stream().map(p -> new Corridor.Corner(p.timeS(), p.value())).toList();
  }
}
