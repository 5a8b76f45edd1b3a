package rampwright.app.chart;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import rampwright.analysis.signal.RmsTrack;
import rampwright.analysis.trace.ChannelName;
import rampwright.app.chart.ChartStyle.Theme;
import rampwright.app.chart.Corridor.Corner;
import rampwright.app.chart.PracticeTraces.Practice;

/**
 * Writes every kind of chart at several sizes into a folder, to be looked at:
 *
 * <pre>java -Djava.awt.headless=true -cp ... rampwright.app.chart.ChartGallery FOLDER</pre>
 */
public final class ChartGallery {
  private ChartGallery() {}

  /** Writes the pictures. */
  public static void main(String[] args) throws IOException {
    Path out = Files.createDirectories(Path.of(args[0]));
    Path practice = PracticeTraces.folder().orElseThrow();
    Map<String, ChartRequest> charts = new LinkedHashMap<>();
    charts.put("trial-pump", trial(practice, "feed-pump", 2, 3.4, 8.1));
    charts.put("trial-missed", trial(practice, "wash-pump", 0, 3.0, 6));
    charts.put("trial-fan", trial(practice, "kiln-fan", 1, 3.2, 30));
    charts.put("trial-wave", trial(practice, "wave-clean", -1, 2.6, 5));
    charts.put("trial-oneway", trial(practice, "wave-one-way", -1, 3.6, 5));
    Practice wave = read(practice, "wave-clean", -1);
    charts.put("dip", dip(wave, "wave-clean"));
    charts.put("dip-pump", dip(read(practice, "feed-pump", 1), "feed-pump"));
    charts.put("overlay", overlay(practice, List.of("lift-pump")));
    charts.put(
        "overlay-many",
        overlay(
            practice,
            List.of("mixer-a", "mixer-b", "mixer-c", "air-compressor", "sump-pump", "wash-pump")));
    charts.put("difference", difference(practice));
    charts.put("prediction", prediction(practice));
    int[][] sizes = {{800, 500}, {1200, 800}, {2400, 1400}, {640, 480}, {420, 400}};
    for (Map.Entry<String, ChartRequest> chart : charts.entrySet()) {
      if (args.length > 1 && !chart.getKey().startsWith(args[1])) {
        continue;
      }
      for (int[] size : sizes) {
        for (Theme theme : size[0] == 1200 ? Theme.values() : new Theme[] {Theme.LIGHT}) {
          String name =
              chart.getKey() + "-" + size[0] + (theme == Theme.DARK ? "-dark" : "") + ".png";
          ChartStyle style = new ChartStyle(size[0], size[1], theme);
          Files.write(out.resolve(name), TrialCharts.render(chart.getValue(), style, Format.PNG));
        }
      }
      ChartStyle style = new ChartStyle(1200, 800, Theme.LIGHT);
      Files.write(
          out.resolve(chart.getKey() + ".svg"),
          TrialCharts.render(chart.getValue(), style, Format.SVG));
    }
  }

  private static Practice read(Path practice, String asset, int trial) throws IOException {
    Path folder = practice.resolve(asset);
    Path trialFolder = folder;
    if (trial >= 0) {
      try (var trials = Files.list(folder.resolve("trials"))) {
        trialFolder = trials.sorted().toList().get(trial);
      }
    }
    return PracticeTraces.read(trialFolder, folder.resolve("asset.toml"));
  }

  private static ChartRequest trial(
      Path practice, String asset, int trial, double limit, double forS) throws IOException {
    Practice p = read(practice, asset, trial);
    double end = p.instant("stop begin") - p.instant("inception");
    Corridor corridor =
        new Corridor(
            Corridor.Channel.CURRENT_RATIO,
            Corridor.Part.START,
            List.of(
                new Corner(0, limit),
                new Corner(forS, limit),
                new Corner(1.3 * forS, 1.2),
                new Corner(Double.isNaN(end) ? 2 * forS : end, 1.2)),
            List.of());
    Corridor speed =
        new Corridor(
            Corridor.Channel.SPEED_PCT,
            Corridor.Part.STOP,
            List.of(new Corner(0, 103), new Corner(4, 103), new Corner(30, 60)),
            List.of(new Corner(0, 95), new Corner(8, 10)));
    boolean met = p.truth().path("envelope_met").asBoolean();
    return new TrialPlot(
        new Heading(
            asset + " · trial " + (trial + 1),
            "torque ramp 10 s from 20 %, limit 3.5 × In · soft stop 10 s",
            p.truth().path("completed").asBoolean() ? "completed" : "stalled",
            met ? Judgement.MET : Judgement.MISSED,
            true,
            "trace.csv · SHA-256 3f1c8e… · rampwright 0.1.0"),
        p.trace(),
        p.track(),
        p.rated(),
        p.marks(),
        List.of(corridor, speed),
        figures(p.truth()),
        null);
  }

  private static List<FigureLine> figures(JsonNode truth) {
    List<FigureLine> lines = new ArrayList<>();
    add(lines, truth, "start_time_s", "s", 0.03, Judgement.MET, "≤ 12");
    add(lines, truth, "peak_current_ratio", "", 0.013, Judgement.MISSED, "≤ 2.8, −3.1 %");
    add(lines, truth, "i2t_ratio_s", "s", 0.4, Judgement.MET, "≤ 90");
    add(lines, truth, "breakaway_delay_s", "s", 0.05, Judgement.NONE, "");
    add(lines, truth, "voltage_dip_pct", "%", 0.2, Judgement.NOT_ASSESSABLE, "≤ 10");
    add(lines, truth, "voltage_min_V", "V", 0.6, Judgement.NONE, "");
    add(lines, truth, "acceleration_energy_J", "J", null, Judgement.NONE, "");
    add(lines, truth, "controlled_time_s", "s", 0.1, Judgement.MET, "6 to 20");
    add(lines, truth, "stop_time_s", "s", 0.1, Judgement.NONE, "no speed channel");
    add(lines, truth, "stop_deceleration_pct_per_s", "%/s", 0.3, Judgement.NONE, "");
    add(lines, truth, "speed_at_release_pct", "%", 0.5, Judgement.NONE, "");
    return lines;
  }

  private static void add(
      List<FigureLine> lines,
      JsonNode truth,
      String key,
      String unit,
      Double uncertainty,
      Judgement judgement,
      String note) {
    Double value = truth.path(key).isNumber() ? (Double) truth.path(key).asDouble() : null;
    lines.add(
        new FigureLine(
            Wording.figure(key),
            value,
            Wording.unit(key, unit),
            value == null ? null : uncertainty,
            judgement,
            note));
  }

  private static ChartRequest dip(Practice p, String name) {
    double from = p.instant("inception");
    Span start = new Span(from, p.instant("full speed"));
    Map<String, Double> before = new LinkedHashMap<>();
    Map<String, Double> least = new LinkedHashMap<>();
    for (ChannelName line : ChannelName.LINE_VOLTAGES) {
      double[] v = p.track().of(line);
      double sum = 0;
      int n = 0;
      double min = Double.POSITIVE_INFINITY;
      for (int i = 0; i < v.length; i++) {
        double t = p.track().timeS()[i];
        if (t < from && t > from - 1) {
          sum += v[i];
          n++;
        } else if (t >= from && t <= start.toS()) {
          min = Math.min(min, v[i]);
        }
      }
      before.put(line.phase(), sum / n);
      least.put(line.phase(), min);
    }
    return new DipPlot(
        Heading.of(name + " · voltage dip"),
        p.track(),
        start,
        before,
        least,
        p.rated().supplyV(),
        figures(p.truth()).subList(4, 6));
  }

  private static TrialCurve curve(Practice p, String label, String note) {
    return new TrialCurve(label, note, p.track(), p.instant("inception"), p.rated());
  }

  private static ChartRequest overlay(Path practice, List<String> assets) throws IOException {
    List<TrialCurve> curves = new ArrayList<>();
    for (String asset : assets) {
      for (int trial = 0; trial < 3; trial++) {
        Practice p = read(practice, asset, trial);
        curves.add(
            curve(
                p,
                (assets.size() > 1 ? asset + " " : "trial ") + (trial + 1),
                p.truth().path("completed").asBoolean() ? "completed" : "stalled"));
      }
    }
    return new OverlayPlot(
        new Heading(
            String.join(", ", assets) + " · trials overlaid",
            "aligned at current inception",
            null,
            Judgement.NONE,
            true,
            ""),
        curves,
        null);
  }

  private static ChartRequest difference(Path practice) throws IOException {
    TrialCurve a = curve(read(practice, "wash-pump", 0), "trial 1", "limit 3.0 × In");
    TrialCurve b = curve(read(practice, "wash-pump", 2), "trial 3", "limit 3.5 × In");
    return new DifferencePlot(
        Heading.of("wash-pump · trial 3 against trial 1"),
        a,
        b,
        List.of(
            new FigureLine("start time", -3.1, "s", 0.08, Judgement.NONE, "8.2 → 5.1"),
            new FigureLine("peak current", 0.41, "× In", 0.02, Judgement.NONE, "2.9 → 3.3")),
        null);
  }

  private static ChartRequest prediction(Path practice) throws IOException {
    Practice p = read(practice, "wash-pump", 2);
    TrialCurve measured = curve(p, "trial 3", "");
    RmsTrack track = p.track();
    Curve current = HighestPhase.of(track, measured.inceptionS(), 1);
    Curve speed = Curve.of(track, ChannelName.SPEED, measured.inceptionS());
    int n = 300;
    double[] timeS = new double[n];
    double[][] c = new double[3][n];
    double[][] s = new double[3][n];
    for (int i = 0; i < n; i++) {
      timeS[i] = 0.05 * i;
      double[] factor = {0.93, 1.02, 1.09};
      double[] stretch = {1.06, 1.02, 0.96};
      for (int k = 0; k < 3; k++) {
        c[k][i] = factor[k] * Math.max(0, current.at(timeS[i] * 1.01));
        s[k][i] = speed == null ? Double.NaN : speed.at(timeS[i] / stretch[k]);
      }
    }
    return new PredictionPlot(
        Heading.of("wash-pump · trial 3, predicted and measured"),
        new PredictedBand(timeS, c[0], c[1], c[2]),
        speed == null ? null : new PredictedBand(timeS, s[0], s[1], s[2]),
        measured,
        p.rated(),
        List.of(
            new Corridor(
                Corridor.Channel.CURRENT_RATIO,
                Corridor.Part.START,
                List.of(
                    new Corner(0, 3.6),
                    new Corner(8, 3.6),
                    new Corner(10, 1.2),
                    new Corner(15, 1.2)),
                List.of())),
        figures(p.truth()).subList(0, 3));
  }
}
