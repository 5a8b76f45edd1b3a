package rampwright.acquisition.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.EvenTime;
import rampwright.analysis.trace.Provenance;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;
import rampwright.analysis.trace.Trace;
import rampwright.analysis.trace.TraceKind;

/** The canonical form, and that it reads back as it was. */
class CsvTraceWriterTest {
  @TempDir Path folder;

  private static Trace trace(TimeBase time, Map<ChannelName, Samples> channels) {
    Provenance provenance =
        new Provenance(
            "test", "", "2026-03-14T09:12:05Z", List.of(), List.of(), List.of("first", "a, b; c"));
    return new Trace(time, channels, TraceKind.RMS, provenance);
  }

  @Test
  void missingFoldersAreNamed() throws Exception {
    Trace trace = new CsvFiles(folder).read("time_s,i1_A\n0,1\n1,2\n");
    Path missing = folder.resolve("none");
    assertThatThrownBy(() -> CsvTraceWriter.write(trace, missing.resolve("x.csv")))
        .isInstanceOf(TraceFileException.class)
        .hasMessageEndingWith(
            "cannot be written: there is no folder "
                + missing
                + "; make it, or name another; nothing was written");
    ComtradeForm form = ComtradeForm.of2013(ComtradeEncoding.FLOAT32);
    assertThatThrownBy(() -> ComtradeWriter.write(trace, missing.resolve("x.cff"), form))
        .isInstanceOf(TraceFileException.class)
        .hasMessageContaining("there is no folder " + missing);
  }

  /** A service writes what others are to read: no narrower than any other file it makes. */
  @Test
  void aTraceMayBeReadByWhoeverMayReadOtherFiles() throws Exception {
    assumeTrue(Files.getFileStore(folder).supportsFileAttributeView("posix"), "POSIX only");
    Path written = folder.resolve("trace.csv");
    CsvTraceWriter.write(new CsvFiles(folder).read("time_s,i1_A\n0,1\n1,2\n"), written);
    Path other = Files.writeString(folder.resolve("other"), "");
    assertThat(Files.getPosixFilePermissions(written))
        .isEqualTo(Files.getPosixFilePermissions(other));
  }

  @Test
  void canonicalForm() throws Exception {
    Trace trace =
        trace(
            TimeBase.even(-0.1, 0.05, 3),
            Map.of(
                ChannelName.SPEED, Samples.of(0, 1480.5, 1e-7),
                ChannelName.I1, Samples.of(1.25, Double.NaN, -0.1),
                ChannelName.TORQUE, Samples.of(1, 2, 1e20),
                ChannelName.RUN, Samples.of(0, 1, 1)));
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    CsvTraceWriter.write(trace, out);
    assertThat(out.toString(StandardCharsets.UTF_8))
        .isEqualTo(
            "# first\n# a, b; c\n# start_utc = 2026-03-14T09:12:05Z\n# kind = rms\n"
                + "time_s,i1_A,speed_rpm,torque_Nm,run\n"
                + "-0.10,1.25,0,1,0\n-0.05,,1480.5,2,1\n0.00,-0.1,0.0000001,1.0E20,1\n");
  }

  @Test
  void whatIsWrittenReadsBackTheSame() throws Exception {
    SplittableRandom random = new SplittableRandom(7);
    int size = 20_000;
    double[] i1 = random.doubles(size, -700, 700).toArray();
    double[] speed = new double[size];
    double[] times = new double[size];
    double now = 0;
    for (int i = 0; i < size; i++) {
      speed[i] = random.nextInt(10) == 0 ? Double.NaN : Math.rint(random.nextDouble(0, 1e5)) / 100;
      now += random.nextDouble(0.001, 0.02);
      times[i] = now;
    }
    Trace trace =
        trace(
            TimeBase.listed(Samples.of(times)),
            Map.of(ChannelName.I1, Samples.of(i1), ChannelName.SPEED, Samples.of(speed)));
    for (String name : List.of("trace.csv", "trace.csv.gz")) {
      Path file = folder.resolve(name);
      CsvTraceWriter.write(trace, file);
      Trace back = CsvTraceReader.read(file, ColumnMapping.NONE, null);
      assertThat(CsvFiles.times(back)).isEqualTo(times);
      assertThat(CsvFiles.values(back, ChannelName.I1)).isEqualTo(i1);
      assertThat(CsvFiles.values(back, ChannelName.SPEED)).isEqualTo(speed);
      assertThat(back.declaredKind()).isEqualTo(TraceKind.RMS);
      assertThat(back.provenance().startUtc()).isEqualTo("2026-03-14T09:12:05Z");
      assertThat(back.provenance().notes()).containsExactly("first", "a, b; c");
    }
  }

  @Test
  void evenTimesReadBackEven() throws Exception {
    double[] steps = {1e-4, 0.02, 1 / 3000.0, 76.8e-6, 1.0 / 5052.631578947368, 2.5};
    for (double step : steps) {
      int size = 5000;
      Trace trace =
          trace(
              TimeBase.even(0.25, step, size),
              Map.of(ChannelName.I1, Samples.of(new double[size])));
      Path file = folder.resolve("even.csv");
      CsvTraceWriter.write(trace, file);
      EvenTime back = (EvenTime) CsvTraceReader.read(file, ColumnMapping.NONE, null).time();
      assertThat(back.size()).isEqualTo(size);
      assertThat(back.atS(size - 1)).isCloseTo(trace.time().atS(size - 1), within(1e-11));
      assertThat(back.stepS()).isCloseTo(step, within(1e-14));
    }
  }

  @Test
  void givenDecimalsAreKeptTo() throws Exception {
    Trace trace = trace(TimeBase.even(0, 1, 2), Map.of(ChannelName.I1, Samples.of(1.0 / 3, 2.5)));
    Path file = folder.resolve("three.csv");
    CsvTraceWriter.write(trace, file, 3);
    assertThat(Files.readString(file)).endsWith("0,0.333\n1,2.500\n");
  }

  @Test
  void failureLeavesTheOldFileAndNoOther() throws Exception {
    Trace trace = trace(TimeBase.even(0, 1, 2), Map.of(ChannelName.I1, Samples.of(1, 2)));
    assertThatThrownBy(() -> CsvTraceWriter.write(trace, folder.resolve("none").resolve("t.csv")))
        .isInstanceOf(TraceFileException.class)
        .hasMessageContaining("cannot be written: there is no folder");
    assertThatThrownBy(() -> CsvTraceWriter.write(trace, folder))
        .isInstanceOf(TraceFileException.class)
        .hasMessageContaining("is a directory");
    Path file = folder.resolve("t.csv");
    Files.writeString(file, "old");
    CsvTraceWriter.write(trace, file);
    assertThat(Files.readString(file)).contains("time_s,i1_A");
    try (var names = Files.list(folder)) {
      assertThat(names).containsExactly(file);
    }
  }
}
