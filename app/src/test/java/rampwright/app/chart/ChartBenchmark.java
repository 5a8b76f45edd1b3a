package rampwright.app.chart;

import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Path2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import java.util.Locale;
import java.util.Map;
import rampwright.analysis.signal.RmsTrack;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Provenance;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;
import rampwright.analysis.trace.Trace;
import rampwright.analysis.trace.TraceKind;

/**
 * How long five million samples take to draw. Not a test: run by hand, numbers in the module's
 * docs.
 *
 * <pre>java -Xmx1g -Djava.awt.headless=true -cp ... rampwright.app.chart.ChartBenchmark</pre>
 */
public final class ChartBenchmark {
  private static final int SIZE = 5_000_000;
  private static final int COLUMNS = 2400;

  private ChartBenchmark() {}

  /** Runs every case. */
  public static void main(String[] args) throws IOException {
    double[] wave = new double[SIZE];
    double[] timeS = new double[SIZE];
    for (int i = 0; i < SIZE; i++) {
      timeS[i] = i * 1e-5;
      wave[i] = 400 * Math.exp(-timeS[i] / 40) * Math.sin(2 * Math.PI * 50 * timeS[i]);
    }
    Span all = new Span(0, timeS[SIZE - 1]);
    TimeBase even = TimeBase.even(0, 1e-5, SIZE);
    TimeBase listed = TimeBase.listed(Samples.owning(timeS));
    Samples array = Samples.owning(wave);
    report("reduce, array, even time", 9, () -> MinMaxColumns.of(even, array, 0, all, COLUMNS));
    report("reduce, array, listed time", 9, () -> MinMaxColumns.of(listed, array, 0, all, COLUMNS));
    Path file = Files.createTempFile("wave", ".bin");
    try {
      Samples mapped = mapped(file, wave);
      report("reduce, mapped file", 9, () -> MinMaxColumns.of(even, mapped, 0, all, COLUMNS));
      ChartStyle style = ChartStyle.DEFAULT;
      TrialPlot one = plot(even, mapped, 1);
      TrialPlot three = plot(even, mapped, 3);
      report("PNG 1200 x 800, 1 x 5 M", 7, () -> TrialCharts.render(one, style, Format.PNG));
      report("PNG 1200 x 800, 3 x 5 M", 7, () -> TrialCharts.render(three, style, Format.PNG));
      report("PNG 300 dpi, 3 x 5 M", 5, () -> TrialCharts.render(three, style, Format.PNG_300_DPI));
      report("SVG, 3 x 5 M", 5, () -> TrialCharts.render(three, style, Format.SVG));
      TrialPlot small =
          plot(TimeBase.even(0, 1e-5, 5000), Samples.owning(Arrays.copyOf(wave, 5000)), 3);
      report("PNG 1200 x 800, 3 x 5000", 7, () -> TrialCharts.render(small, style, Format.PNG));
    } finally {
      Files.delete(file);
    }
    report("every sample as one path, no antialiasing", 1, () -> raw(wave, false));
    report("every sample as one path, antialiased", 1, () -> raw(wave, true));
  }

  private static Samples mapped(Path file, double[] wave) throws IOException {
    try (FileChannel channel =
        FileChannel.open(file, StandardOpenOption.READ, StandardOpenOption.WRITE)) {
      ByteBuffer bytes =
          channel
              .map(FileChannel.MapMode.READ_WRITE, 0, 8L * wave.length)
              .order(ByteOrder.nativeOrder());
      bytes.asDoubleBuffer().put(wave);
      return Samples.owning(bytes.asDoubleBuffer());
    }
  }

  private static TrialPlot plot(TimeBase time, Samples samples, int phases) {
    Map<ChannelName, Samples> channels = new java.util.EnumMap<>(ChannelName.class);
    ChannelName.CURRENTS.subList(0, phases).forEach(name -> channels.put(name, samples));
    int size = 5000;
    double[] trackS = new double[size];
    double[] rms = new double[size];
    for (int i = 0; i < size; i++) {
      trackS[i] = time.atS(time.size() - 1) * i / (size - 1);
      rms[i] = 400 / Math.sqrt(2) * Math.exp(-trackS[i] / 40);
    }
    Trace trace = new Trace(time, channels, TraceKind.WAVEFORM, Provenance.computed("benchmark"));
    return TrialPlot.of(
        Heading.of("benchmark"),
        trace,
        new rampwright.analysis.figure.AnalyzedTrace(
            new rampwright.analysis.figure.TraceFigures(
                TraceKind.WAVEFORM,
                "",
                1e5,
                50.0,
                50,
                java.util.List.of(),
                java.util.List.of(),
                java.util.List.of()),
            new RmsTrack(trackS, Map.of(ChannelName.I1, rms))),
        0,
        Rated.UNKNOWN,
        java.util.List.of(),
        java.util.List.of());
  }

  private static BufferedImage raw(double[] wave, boolean smooth) {
    BufferedImage image = new BufferedImage(1200, 800, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = image.createGraphics();
    g.setRenderingHint(
        RenderingHints.KEY_ANTIALIASING,
        smooth ? RenderingHints.VALUE_ANTIALIAS_ON : RenderingHints.VALUE_ANTIALIAS_OFF);
    Path2D.Float path = new Path2D.Float();
    path.moveTo(0, 400);
    for (int i = 0; i < wave.length; i++) {
      path.lineTo(1200.0 * i / wave.length, 400 - 0.9 * wave[i]);
    }
    g.draw(path);
    g.dispose();
    return image;
  }

  @FunctionalInterface
  private interface Work {
    Object run();
  }

  private static void report(String name, int times, Work work) {
    double[] ms = new double[times];
    int seen = 0;
    for (int i = 0; i < times; i++) {
      long from = System.nanoTime();
      seen += System.identityHashCode(work.run()) & 1;
      ms[i] = (System.nanoTime() - from) / 1e6;
    }
    double first = ms[0];
    Arrays.sort(ms);
    System.out.printf(
        Locale.ROOT,
        "%-45s first %8.1f ms, median %8.1f ms, least %8.1f ms (%d)%n",
        name,
        first,
        ms[times / 2],
        ms[0],
        seen);
  }
}
