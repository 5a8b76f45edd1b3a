package rampwright.app.chart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.awt.GraphicsEnvironment;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import rampwright.analysis.signal.RmsTrack;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Provenance;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;
import rampwright.analysis.trace.Trace;
import rampwright.analysis.trace.TraceKind;
import rampwright.app.chart.ChartStyle.Theme;
import rampwright.app.chart.Corridor.Corner;

/** Pictures are checked by eye with the gallery beside this test; here is what can be computed. */
class TrialChartsTest {
  private static final ChartStyle SMALL = new ChartStyle(480, 360, Theme.LIGHT);
  private static final Rated RATED = new Rated(100.0, 1480.0, 400.0);

  private static double[] values(int size, DoubleUnaryOperator of) {
    double[] values = new double[size];
    Arrays.setAll(values, i -> of.applyAsDouble(10.0 * i / Math.max(1, size - 1)));
    return values;
  }

  private static double amps(double t) {
    return t < 1 ? 0 : t < 5 ? 300 - 20 * (t - 1) : 80;
  }

  private static RmsTrack track(int size, double scale, boolean withSpeed) {
    Map<ChannelName, double[]> channels = new HashMap<>();
    channels.put(ChannelName.I1, values(size, t -> scale * amps(t)));
    channels.put(ChannelName.I2, values(size, t -> scale * 1.02 * amps(t)));
    channels.put(ChannelName.V12, values(size, t -> 400 - 0.2 * amps(t)));
    if (withSpeed) {
      channels.put(ChannelName.SPEED, values(size, t -> Math.min(1480, Math.max(0, t - 1) * 400)));
    }
    return new RmsTrack(values(size, t -> t), channels);
  }

  private static RmsTrack allMissing(int size) {
    return new RmsTrack(
        values(size, t -> t),
        Map.of(
            ChannelName.I1, values(size, t -> Double.NaN),
            ChannelName.SPEED, values(size, t -> Double.NEGATIVE_INFINITY)));
  }

  private static Trace asTrace(RmsTrack track) {
    Map<ChannelName, Samples> channels = new HashMap<>();
    track.values().forEach((name, array) -> channels.put(name, Samples.of(array)));
    return new Trace(
        TimeBase.listed(Samples.of(track.timeS())),
        channels,
        TraceKind.RMS,
        Provenance.computed("test"));
  }

  private static TrialPlot trial(RmsTrack track, Rated rated) {
    return new TrialPlot(
        new Heading("Pump <1> & \"2\"", "s", "completed", Judgement.MISSED, true, "foot 0.123456"),
        asTrace(track),
        track,
        rated,
        List.of(
            new Mark("inception", 1, 0.01, false),
            new Mark("full speed", 4.7, null, true),
            new Mark("stop begin", 8, null, false)),
        List.of(
            new Corridor(
                Corridor.Channel.CURRENT_RATIO,
                Corridor.Part.START,
                List.of(new Corner(0, 2.5), new Corner(6, 1.2)),
                List.of(new Corner(0.5, 0.2), new Corner(3, 0.2))),
            new Corridor(
                Corridor.Channel.SPEED_PCT,
                Corridor.Part.STOP,
                List.of(),
                List.of(new Corner(0, 90), new Corner(Double.NaN, 3), new Corner(2, 10)))),
        List.of(
            new FigureLine("start time", 3.7, "s", 0.05, Judgement.MET, "at most 5"),
            new FigureLine("dip", null, "%", null, Judgement.NOT_ASSESSABLE, "no voltage")),
        null);
  }

  private static TrialCurve curve(RmsTrack track, String label) {
    return new TrialCurve(label, "completed", track, 1, RATED);
  }

  private static PredictedBand band(int size, double factor) {
    return new PredictedBand(
        values(size, t -> t),
        values(size, t -> factor * 0.9 * amps(t + 1)),
        values(size, t -> factor * amps(t + 1)),
        values(size, t -> factor * 1.1 * amps(t + 1)));
  }

  static Stream<Arguments> edges() {
    RmsTrack usual = track(400, 1, true);
    RmsTrack empty = new RmsTrack(new double[0], Map.of());
    RmsTrack one = track(1, 1, true);
    RmsTrack huge = track(400, 1e305, true);
    RmsTrack tiny = track(400, 1e-320, true);
    RmsTrack mute = track(400, 1, false);
    RmsTrack bad = allMissing(50);
    List<Arguments> cases = new ArrayList<>();
    Map<String, RmsTrack> tracks = new HashMap<>();
    tracks.put("usual", usual);
    tracks.put("empty", empty);
    tracks.put("one point", one);
    tracks.put("two points", track(2, 1, true));
    tracks.put("huge values", huge);
    tracks.put("tiny values", tiny);
    tracks.put("no speed", mute);
    tracks.put("nothing good", bad);
    tracks.forEach(
        (name, track) -> {
          cases.add(Arguments.of("trial, " + name, trial(track, RATED)));
          if (name.startsWith("t") || name.startsWith("no ")) {
            return;
          }
          cases.add(
              Arguments.of(
                  "dip, " + name,
                  new DipPlot(
                      Heading.of("dip"),
                      track,
                      new Span(1, 4.7),
                      Map.of("L1-L2", 400.0),
                      Map.of("L1-L2", 340.0),
                      400.0,
                      List.of())));
          cases.add(
              Arguments.of(
                  "difference, " + name,
                  new DifferencePlot(
                      Heading.of("difference"),
                      curve(usual, "trial 1"),
                      curve(track, "trial 2"),
                      List.of(),
                      null)));
          cases.add(
              Arguments.of(
                  "prediction, " + name,
                  new PredictionPlot(
                      Heading.of("prediction"),
                      band(50, 1),
                      null,
                      curve(track, "trial 2"),
                      RATED,
                      List.of(),
                      List.of())));
        });
    cases.add(Arguments.of("trial without nameplate", trial(usual, Rated.UNKNOWN)));
    List<TrialCurve> twenty = new ArrayList<>();
    for (int i = 0; i < 20; i++) {
      twenty.add(curve(track(300 + i, 1 + 0.05 * i, i % 3 != 0), "trial " + (i + 1)));
    }
    cases.add(Arguments.of("overlay of 20", new OverlayPlot(Heading.of("o"), twenty, null)));
    cases.add(Arguments.of("overlay of 0", new OverlayPlot(Heading.of("o"), List.of(), null)));
    cases.add(
        Arguments.of(
            "overlay of odd ones",
            new OverlayPlot(
                Heading.of("o"),
                List.of(
                    curve(empty, "a"),
                    curve(one, "b"),
                    curve(bad, "c"),
                    new TrialCurve("d", "", usual, 0, new Rated(7.0, 900.0, null))),
                null)));
    cases.add(
        Arguments.of(
            "prediction of nothing",
            new PredictionPlot(
                Heading.of(""),
                band(0, 1),
                band(1, 1),
                null,
                Rated.UNKNOWN,
                List.of(),
                List.of())));
    cases.add(Arguments.of("trial within 40 µs", trial(usual, RATED).within(new Span(2, 2.00004))));
    cases.add(
        Arguments.of("trial outside its record", trial(usual, RATED).within(new Span(50, 60))));
    return cases.stream();
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("edges")
  void everyChartIsDrawnWhateverItHolds(String name, ChartRequest request) throws Exception {
    assertThat(GraphicsEnvironment.isHeadless()).isTrue();
    BufferedImage image = image(TrialCharts.render(request, SMALL, Format.PNG));
    assertThat(image.getWidth()).isEqualTo(480);
    assertThat(image.getHeight()).isEqualTo(360);
    assertThat(colours(image)).as("colours used").hasSizeGreaterThan(8);
    byte[] svg = TrialCharts.render(request, SMALL, Format.SVG);
    assertThat(parsed(svg)).isEqualTo("svg");
    assertThat(new String(svg, StandardCharsets.UTF_8)).doesNotContain("NaN", "Infinity");
  }

  private static BufferedImage image(byte[] bytes) throws IOException {
    return ImageIO.read(new ByteArrayInputStream(bytes));
  }

  private static Set<Integer> colours(BufferedImage image) {
    Set<Integer> colours = new HashSet<>();
    for (int rgb :
        image.getRGB(0, 0, image.getWidth(), image.getHeight(), null, 0, image.getWidth())) {
      colours.add(rgb);
    }
    return colours;
  }

  private static String parsed(byte[] svg) throws Exception {
    return DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new ByteArrayInputStream(svg))
        .getDocumentElement()
        .getTagName();
  }

  @Test
  void theSameRequestGivesTheSameBytes() {
    TrialPlot plot = trial(track(2000, 1, true), RATED);
    for (Format format : List.of(Format.PNG, Format.SVG)) {
      assertThat(TrialCharts.render(plot, ChartStyle.DEFAULT, format))
          .isEqualTo(TrialCharts.render(plot, ChartStyle.DEFAULT, format));
    }
  }

  @Test
  void aSpikeOfOneSampleInAMillionIsVisible() throws Exception {
    int size = 1_000_000;
    double[] quiet = new double[size];
    double[] spiked = new double[size];
    spiked[700_000] = 500;
    BufferedImage without = image(TrialCharts.render(wave(quiet), SMALL, Format.PNG));
    BufferedImage with = image(TrialCharts.render(wave(spiked), SMALL, Format.PNG));
    int marked = 0;
    for (int y = 0; y < without.getHeight(); y++) {
      int differing = 0;
      for (int x = 0; x < without.getWidth(); x++) {
        differing += without.getRGB(x, y) == with.getRGB(x, y) ? 0 : 1;
      }
      marked += differing > 0 ? 1 : 0;
    }
    // Both have the same axis, for the flat one is given a limit of the same height.
    assertThat(marked).as("rows the spike runs through").isGreaterThan(40);
  }

  private static TrialPlot wave(double[] samples) {
    TimeBase time = TimeBase.even(0, 1e-4, samples.length);
    Trace trace =
        new Trace(
            time,
            Map.of(ChannelName.I1, Samples.owning(samples)),
            TraceKind.WAVEFORM,
            Provenance.computed("test"));
    RmsTrack track =
        new RmsTrack(new double[] {0, 100}, Map.of(ChannelName.I1, new double[] {0, 0}));
    Corridor corridor =
        new Corridor(
            Corridor.Channel.CURRENT_RATIO,
            Corridor.Part.START,
            List.of(new Corner(0, 500), new Corner(1, 500)),
            List.of());
    return new TrialPlot(
        Heading.of("spike"),
        trace,
        track,
        new Rated(1.0, null, null),
        List.of(new Mark("inception", 0, null, false)),
        List.of(corridor),
        List.of(),
        null);
  }

  @Test
  void resolutionIsWrittenIntoTheFile() {
    TrialPlot plot = trial(track(100, 1, true), RATED);
    byte[] png = TrialCharts.render(plot, SMALL, Format.PNG_300_DPI);
    // PNG, third edition, 11.3.4.3: pHYs holds pixels per metre; 300 / 0.0254 m = 11811.
    int at = new String(png, StandardCharsets.ISO_8859_1).indexOf("pHYs");
    assertThat(ByteBuffer.wrap(png).getInt(at + 4)).isEqualTo(11811);
    assertThat(ByteBuffer.wrap(png).getInt(16)).as("width").isEqualTo(1500);
    byte[] twice = TrialCharts.render(plot, SMALL, Format.PNG_2X);
    assertThat(ByteBuffer.wrap(twice).getInt(16)).as("width").isEqualTo(960);
  }

  @Test
  void svgIsShortSelfContainedAndKeepsItsText() {
    String svg =
        new String(
            TrialCharts.render(trial(track(8000, 1, true), RATED), ChartStyle.DEFAULT, Format.SVG),
            StandardCharsets.UTF_8);
    assertThat(svg).contains("<title>Pump &lt;1&gt; &amp; \"2\"</title>");
    assertThat(svg).contains("foot 0.123456").contains("invented sample").contains("missed");
    assertThat(svg).contains("font-family:sans-serif;").doesNotContain("&quot;sans");
    assertThat(svg).doesNotContain("DOCTYPE").doesNotContain(".dtd").doesNotContain("<image");
    assertThat(svg.length()).as("characters").isLessThan(400_000);
  }

  @Test
  void absurdSizesAreRefusedWithTheAllowedOnes() {
    assertThatThrownBy(() -> new ChartStyle(100_000, 10, Theme.LIGHT))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("320 to 8000");
  }
}
