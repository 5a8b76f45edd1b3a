package rampwright.acquisition.file;

import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;
import rampwright.analysis.trace.Trace;

/**
 * Reading and writing 60 s of seven channels at 10 kHz: 600,000 rows of 8 columns. How to run it
 * and what it gave is in {@code acquisition/docs/benchmarks.md}.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 10, time = 1)
public class CsvReadBenchmark {
  private static final int ROWS = 600_000;
  private static final double RATE_HZ = 10_000;

  private Path folder = Path.of("");
  private Path file = Path.of("");
  private Path copy = Path.of("");

  /** Writes the file; the numbers are of the kind a start gives, the seed is fixed. */
  @Setup(Level.Trial)
  public void write() throws IOException {
    folder = Files.createTempDirectory("rampwright-bench-");
    file = folder.resolve("start.csv");
    copy = folder.resolve("copy.csv");
    generate(file, ROWS);
  }

  @TearDown(Level.Trial)
  public void remove() throws IOException {
    Files.deleteIfExists(copy);
    Files.deleteIfExists(file);
    Files.deleteIfExists(folder);
  }

  @Benchmark
  public Trace read() throws TraceFileException {
    return CsvTraceReader.read(file, ColumnMapping.NONE, null);
  }

  @Benchmark
  public Trace readOnOneThread() throws TraceFileException {
    CsvLimits usual = CsvLimits.standard();
    return CsvTraceReader.read(
        file,
        ColumnMapping.NONE,
        null,
        ReadContext.NONE,
        new CsvLimits(usual.maxLineBytes(), usual.maxColumns(), usual.heapBytes(), 1));
  }

  @Benchmark
  public Path readAndWrite() throws TraceFileException {
    CsvTraceWriter.write(read(), copy);
    return copy;
  }

  static void generate(Path file, int rows) throws IOException {
    SplittableRandom random = new SplittableRandom(1);
    try (BufferedWriter out = Files.newBufferedWriter(file, StandardCharsets.US_ASCII)) {
      out.write("time_s,i1_A,i2_A,i3_A,v12_V,v23_V,v31_V,speed_rpm\n");
      StringBuilder line = new StringBuilder();
      for (int i = 0; i < rows; i++) {
        double timeS = i / RATE_HZ;
        double angle = 2 * Math.PI * 50 * timeS;
        double envelope = 400 * Math.exp(-timeS / 10) + 50;
        line.setLength(0);
        line.append(String.format(Locale.ROOT, "%.6f", timeS));
        for (int phase = 0; phase < 3; phase++) {
          double value =
              envelope * Math.sin(angle - phase * 2 * Math.PI / 3) + random.nextDouble(-2, 2);
          line.append(String.format(Locale.ROOT, ",%.6f", value));
        }
        for (int phase = 0; phase < 3; phase++) {
          double value =
              565 * Math.sin(angle + 0.5 - phase * 2 * Math.PI / 3) + random.nextDouble(-2, 2);
          line.append(String.format(Locale.ROOT, ",%.4f", value));
        }
        line.append(String.format(Locale.ROOT, ",%.3f%n", Math.min(1480, timeS * 100)));
        out.write(line.toString());
      }
    }
  }
}
