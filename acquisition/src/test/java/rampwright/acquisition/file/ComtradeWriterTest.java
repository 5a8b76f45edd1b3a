package rampwright.acquisition.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.EvenTime;
import rampwright.analysis.trace.Provenance;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;
import rampwright.analysis.trace.Trace;

/** Traces written and read again, over every edition, encoding and kind of time axis. */
class ComtradeWriterTest {
  private static final int SIZE = 3000;
  private static final String START = "2026-03-14T09:12:05.123456700Z";
  private static final ReadOptions NAMING_RUN =
      new ReadOptions(
          new ColumnMapping(Map.of("run", new ColumnRule("run", null, null, null, null))),
          null,
          false);

  @TempDir Path folder;

  private static Trace trace(TimeBase time, String startUtc) {
    Random random = new Random(20260314);
    Map<ChannelName, Samples> channels = new EnumMap<>(ChannelName.class);
    for (ChannelName name : ChannelName.values()) {
      double[] values = new double[time.size()];
      for (int i = 0; i < values.length; i++) {
        values[i] =
            switch (name) {
              case RUN -> i > 100 ? 1 : 0;
              case PRESSURE -> 4.25;
              // Large beside its range: single precision alone would be too coarse.
              case SPEED -> 1480 + 1e-3 * Math.sin(i / 50.0);
              default -> (100 + name.ordinal()) * Math.sin(i / 9.0) + random.nextGaussian();
            };
      }
      if (name != ChannelName.RUN) {
        values[name.ordinal() + 7] = Double.NaN;
      }
      channels.put(name, Samples.owning(values));
    }
    return new Trace(
        time,
        channels,
        null,
        new Provenance("made here", "", startUtc, List.of(), List.of(), List.of()));
  }

  private static TimeBase uneven() {
    Random random = new Random(7);
    double[] times = new double[SIZE];
    double at = -0.25;
    for (int i = 0; i < times.length; i++) {
      at += 0.001 + 0.05 * random.nextDouble();
      times[i] = at;
    }
    return TimeBase.listed(Samples.owning(times));
  }

  static Stream<Arguments> forms() {
    List<Arguments> all = new ArrayList<>();
    for (boolean even : new boolean[] {true, false}) {
      for (ComtradeEncoding encoding : ComtradeEncoding.values()) {
        all.add(Arguments.of(ComtradeForm.of2013(encoding), "r.cfg", even));
        all.add(Arguments.of(ComtradeForm.of2013(encoding), "r.cff", even));
      }
      all.add(Arguments.of(ComtradeForm.of1999(ComtradeEncoding.ASCII), "r.cfg", even));
      all.add(Arguments.of(ComtradeForm.of1999(ComtradeEncoding.BINARY), "R.CFG", even));
      all.add(Arguments.of(ComtradeForm.of1991(ComtradeEncoding.ASCII), "r.cfg", even));
      all.add(Arguments.of(ComtradeForm.of1991(ComtradeEncoding.BINARY), "r.cfg", even));
    }
    return all.stream();
  }

  @ParameterizedTest
  @MethodSource("forms")
  void whatIsWrittenReadsBackWithinTheStatedStep(ComtradeForm form, String name, boolean even)
      throws Exception {
    Trace written = trace(even ? TimeBase.even(1.5, 1e-4, SIZE) : uneven(), START);
    ComtradeWriter.Report report = ComtradeWriter.write(written, folder.resolve(name), form);
    Trace read = ComtradeReader.read(report.files().get(0), NAMING_RUN);
    assertThat(read.names()).isEqualTo(written.names());
    assertThat(read.size()).isEqualTo(written.size());
    assertThat(read.provenance().warnings()).isEmpty();
    for (ChannelName channel : written.names()) {
      double[] before = Objects.requireNonNull(written.channel(channel)).toArray();
      double[] after = Objects.requireNonNull(read.channel(channel)).toArray();
      double middle = middle(before);
      double range = 0;
      for (double value : before) {
        range = Math.max(range, Double.isNaN(value) ? 0 : 2 * Math.abs(value - middle));
      }
      // Half a step of range / 65000, plus what doubles lose in a x + b.
      double tolerance = range / 65_000 / 2 + 1e-12 * (Math.abs(middle) + range);
      double worst = 0;
      for (int i = 0; i < before.length; i++) {
        boolean bothMissing = Double.isNaN(before[i]) && Double.isNaN(after[i]);
        double off = Math.abs(after[i] - before[i]);
        // One missing, the other not, gives NaN here and fails.
        worst = bothMissing || off <= worst ? worst : off;
      }
      assertThat(worst).as(channel.key()).isLessThanOrEqualTo(tolerance);
    }
    assertThat(read.time() instanceof EvenTime).isEqualTo(even);
    // Stamps in the finest power of ten that 31 bits hold: 76 s in 100 ns, 1.8 s in 1 ns.
    double worstS = 0;
    for (int i = 0; i < SIZE; i++) {
      worstS = Math.max(worstS, Math.abs(read.time().atS(i) - written.time().atS(i)));
    }
    // The 1991 edition counts whole microseconds, whatever the record's length.
    boolean is1991 = form.edition() == ComtradeEdition.E1991;
    assertThat(worstS).isLessThanOrEqualTo(is1991 ? 0.51e-6 : 0.51e-7);
    if (form.edition() == ComtradeEdition.E2013) {
      assertThat(read.provenance().startUtc()).isNotNull();
      assertThat(
              Duration.between(
                      Instant.parse(START),
                      Instant.parse(Objects.requireNonNull(read.provenance().startUtc())))
                  .abs())
          .isLessThanOrEqualTo(Duration.ofNanos(100));
    }
  }

  private static double middle(double[] values) {
    double min = Double.POSITIVE_INFINITY;
    double max = Double.NEGATIVE_INFINITY;
    for (double value : values) {
      if (!Double.isNaN(value)) {
        min = Math.min(min, value);
        max = Math.max(max, value);
      }
    }
    return min / 2 + max / 2;
  }

  // Layout of IEEE C37.111-2013 clauses 7 and 8 (from memory), bytes worked out by hand.
  @Test
  void smallRecordHasTheBytesWorkedOutByHand() throws Exception {
    Map<ChannelName, Samples> channels =
        Map.of(
            ChannelName.I1, Samples.of(-1, Double.NaN, 1),
            ChannelName.RUN, Samples.of(0, 1, 1));
    Trace small =
        new Trace(
            TimeBase.even(0, 0.001, 3),
            channels,
            null,
            new Provenance("here", "", START, List.of(), List.of(), List.of()));
    ComtradeWriter.write(
        small, folder.resolve("r.cfg"), ComtradeForm.of2013(ComtradeEncoding.BINARY));
    assertThat(HexFormat.ofDelimiter(" ").formatHex(Files.readAllBytes(folder.resolve("r.dat"))))
        .isEqualTo(
            "01 00 00 00 00 00 00 00 01 80 00 00 "
                + "02 00 00 00 40 42 0f 00 00 80 01 00 "
                + "03 00 00 00 80 84 1e 00 ff 7f 01 00");
    assertThat(Files.readAllLines(folder.resolve("r.cfg")))
        .containsExactly(
            "rampwright,trace,2013",
            "2,1A,1D",
            "1,i1,A,,A," + 1 / 32767.0 + ",0,0,-32767,32767,1,1,P",
            "1,run,,,0",
            "0",
            "1",
            "1000,3",
            "14/03/2026,09:12:05.123456700",
            "14/03/2026,09:12:05.123456700",
            "BINARY",
            "1",
            "0,0",
            "F,0");
    ComtradeWriter.write(
        small, folder.resolve("a.cfg"), ComtradeForm.of1999(ComtradeEncoding.ASCII));
    assertThat(Files.readAllLines(folder.resolve("a.dat")))
        .containsExactly("1,0,-99998,0", "2,1000000,99999,1", "3,2000000,99998,1");
  }

  // Layout of IEEE C37.111-1991 clauses 5 and 6 (from memory): ten fields, no year,
  // ComtradeReaderTest): ten fields, no year, month first, no multiplier, stamps in microseconds.
  @Test
  void recordOf1991HasTheBytesWorkedOutByHand() throws Exception {
    Map<ChannelName, Samples> channels =
        Map.of(
            ChannelName.I1, Samples.of(-1, Double.NaN, 1),
            ChannelName.RUN, Samples.of(0, 1, 1));
    Trace small =
        new Trace(
            TimeBase.even(0, 0.001, 3),
            channels,
            null,
            new Provenance("here", "", START, List.of(), List.of(), List.of()));
    ComtradeWriter.Report report =
        ComtradeWriter.write(
            small, folder.resolve("r.cfg"), ComtradeForm.of1991(ComtradeEncoding.BINARY));
    assertThat(HexFormat.ofDelimiter(" ").formatHex(Files.readAllBytes(folder.resolve("r.dat"))))
        .isEqualTo(
            "01 00 00 00 00 00 00 00 01 80 00 00 "
                + "02 00 00 00 e8 03 00 00 00 80 01 00 "
                + "03 00 00 00 d0 07 00 00 ff 7f 01 00");
    assertThat(Files.readAllLines(folder.resolve("r.cfg")))
        .containsExactly(
            "rampwright,trace",
            "2,1A,1D",
            "1,i1,A,,A," + 1 / 32767.0 + ",0,0,-32767,32767",
            "1,run,0",
            "0",
            "1",
            "1000,3",
            "03/14/26,09:12:05.123456",
            "03/14/26,09:12:05.123456",
            "BINARY");
    assertThat(report.statements())
        .anyMatch(line -> line.contains("the 1991 edition cannot say the zone"))
        .anyMatch(line -> line.contains("values are primary ones"));
    ComtradeWriter.write(
        small, folder.resolve("a.cfg"), ComtradeForm.of1991(ComtradeEncoding.ASCII));
    assertThat(Files.readAllLines(folder.resolve("a.dat")))
        .containsExactly("1,0,-99998,0", "2,1000,999999,1", "3,2000,99998,1");
    assertThat(ComtradeFile.open(folder.resolve("a.cfg")).config().edition())
        .isEqualTo(ComtradeEdition.E1991);
  }

  @Test
  void whatTheMicrosecondsOf1991CannotCountIsRefused() {
    Trace long1991 = trace(TimeBase.listed(Samples.of(times(2))), START);
    ComtradeForm binary = ComtradeForm.of1991(ComtradeEncoding.BINARY);
    assertThatThrownBy(() -> ComtradeWriter.write(long1991, folder.resolve("r.cfg"), binary))
        .isInstanceOf(TraceFileException.class)
        .hasMessageContaining("32 bits, which is 4295 s; write ASCII, or a later edition");
    assertThatThrownBy(
            () ->
                new ComtradeForm(
                    ComtradeEdition.E1991, ComtradeEncoding.FLOAT32, "a", "b", 50, true))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("the 1991 edition has ASCII and BINARY");
  }

  @Test
  void startThatIsNotKnownIsLeftBlank() throws Exception {
    Trace written = trace(TimeBase.even(0, 1e-3, SIZE), null);
    Path file = folder.resolve("r.cfg");
    ComtradeWriter.Report report =
        ComtradeWriter.write(written, file, ComtradeForm.of2013(ComtradeEncoding.BINARY));
    assertThat(report.statements()).anyMatch(line -> line.contains("not known"));
    assertThat(ComtradeReader.read(file, NAMING_RUN).provenance().startUtc()).isNull();
  }

  @Test
  void nothingIsWrittenOverAndNothingIsLeftBehind() throws Exception {
    Trace written = trace(TimeBase.even(0, 1e-3, SIZE), START);
    Path file = folder.resolve("r.cfg");
    Files.writeString(folder.resolve("r.dat"), "mine");
    ComtradeForm form = ComtradeForm.of2013(ComtradeEncoding.BINARY);
    assertThatThrownBy(() -> ComtradeWriter.write(written, file, form))
        .isInstanceOf(TraceFileException.class)
        .hasMessageContaining("exists already");
    assertThat(folder.resolve("r.dat")).hasContent("mine");
    ComtradeForm over = new ComtradeForm(form.edition(), form.encoding(), "a,b", "c\n", 50, true);
    ComtradeWriter.write(written, file, over);
    assertThat(ComtradeFile.open(file).config().station()).isEqualTo("a b");
    try (Stream<Path> left = Files.list(folder)) {
      assertThat(left.map(path -> path.getFileName().toString()))
          .containsExactlyInAnyOrder("r.cfg", "r.dat");
    }
    assertThatThrownBy(() -> ComtradeWriter.write(written, folder.resolve("no/such/r.cfg"), form))
        .isInstanceOf(TraceFileException.class)
        .hasMessageContaining("cannot be written");
    assertThatThrownBy(() -> ComtradeWriter.write(written, folder.resolve("r.txt"), form))
        .hasMessageContaining(".cfg file");
  }

  @Test
  void instantsThatAStampCannotTellApartAreRefused() {
    Trace written = trace(TimeBase.listed(Samples.of(times(1))), START);
    assertThatThrownBy(
            () ->
                ComtradeWriter.write(
                    written, folder.resolve("r.cfg"), ComtradeForm.of2013(ComtradeEncoding.ASCII)))
        .isInstanceOf(TraceFileException.class)
        .hasMessageContaining("samples 1 and 2 are 1.00e-09 s apart");
  }

  private static double[] times(double stepS) {
    double[] times = new double[SIZE];
    for (int i = 0; i < SIZE; i++) {
      times[i] = i == 1 ? 1e-9 * stepS : i * stepS;
    }
    return times;
  }

  @Test
  void widestAndNarrowestRangesAreScaled() {
    Samples wide = Samples.of(-Double.MAX_VALUE, 0, Double.MAX_VALUE, Double.NaN);
    for (ComtradeEncoding encoding : ComtradeEncoding.values()) {
      ComtradeScaling scaling = ComtradeScaling.of(encoding, wide);
      assertThat(scaling.a()).isPositive().isFinite();
      ComtradeScaling empty = ComtradeScaling.of(encoding, Samples.of(Double.NaN));
      assertThat(empty.a()).isEqualTo(1);
      ComtradeScaling still = ComtradeScaling.of(encoding, Samples.of(0.1, 0.1));
      assertThat(
              still.b()
                  + still.a()
                      * (encoding == ComtradeEncoding.FLOAT32
                          ? still.real(0.1)
                          : still.stored(0.1)))
          .isEqualTo(0.1);
    }
  }
}
