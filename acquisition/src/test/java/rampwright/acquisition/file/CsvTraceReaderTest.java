package rampwright.acquisition.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.Map;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.EvenTime;
import rampwright.analysis.trace.Trace;
import rampwright.analysis.trace.TraceKind;

/** Tables as loggers, scopes and spreadsheets write them. */
class CsvTraceReaderTest {
  private static final String CANONICAL =
      "# pump house, second trial\ntime_s,i1_A,i2_A,i3_A,speed_rpm,run\n"
          + "0.0,1.5,2.5,3.5,0,0\n0.1,4.5,5.5,6.5,10.25,1\n0.2,7.5,,9.5,20.5,1\n";

  @TempDir Path folder;
  private CsvFiles files;

  @BeforeEach
  void files() {
    files = new CsvFiles(folder);
  }

  @Test
  void canonicalColumnsAreTheirChannels() throws Exception {
    Trace trace = files.read(CANONICAL);
    assertThat(trace.names())
        .containsExactly(
            ChannelName.I1, ChannelName.I2, ChannelName.I3, ChannelName.SPEED, ChannelName.RUN);
    assertThat(trace.time()).isEqualTo(new EvenTime(0, 0.1, 3));
    assertThat(CsvFiles.values(trace, ChannelName.I1)).containsExactly(1.5, 4.5, 7.5);
    assertThat(CsvFiles.values(trace, ChannelName.I2)).containsExactly(2.5, 5.5, Double.NaN);
    assertThat(CsvFiles.values(trace, ChannelName.RUN)).containsExactly(0, 1, 1);
    assertThat(trace.provenance().notes()).containsExactly("pump house, second trial");
    assertThat(trace.provenance().understood())
        .contains(
            "time <- column 1 \"time_s\": s; 3 rows every 0.1 s (10 Hz), even within the rounding of"
                + " every stamp",
            "i1 <- column 2 \"i1_A\": A");
    assertThat(trace.provenance().warnings())
        .containsExactly("1 blank cells, marked missing; first at line 5 column 3");
    assertThat(trace.declaredKind()).isNull();
  }

  @Test
  void digestIsOfTheBytesAsStored() throws Exception {
    byte[] packed = gzip(CANONICAL.getBytes(StandardCharsets.UTF_8));
    Trace trace = CsvTraceReader.read(files.file(packed), ColumnMapping.NONE, TraceKind.RMS);
    String expected = HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(packed));
    assertThat(trace.provenance().sha256()).isEqualTo(expected);
    assertThat(trace.declaredKind()).isEqualTo(TraceKind.RMS);
  }

  @Test
  void gzipIsKnownByItsFirstBytes() throws Exception {
    byte[] packed = gzip(CANONICAL.getBytes(StandardCharsets.UTF_8));
    Trace trace = CsvTraceReader.read(files.file(packed), ColumnMapping.NONE, null);
    assertThat(trace.size()).isEqualTo(3);
    assertThat(trace.provenance().understood().get(0)).contains("UTF-8, gzip");
  }

  @ParameterizedTest
  @ValueSource(strings = {"UTF-8", "UTF-16LE", "UTF-16BE", "ISO-8859-1"})
  void encodingsAreFoundOut(String name) throws Exception {
    String text = "Zeit [s];Strömung [m3/h];Prąd L1 [A]\n0,0;5;1,5\n0,1;5;2,5\n0,2;5;3,5\n";
    if (name.equals("ISO-8859-1")) {
      text = text.replace('ą', 'a');
    }
    String mark = name.startsWith("UTF") ? "\ufeff" : "";
    byte[] bytes = (mark + text).getBytes(Charset.forName(name));
    Trace trace = CsvTraceReader.read(files.file(bytes), ColumnMapping.NONE, null);
    assertThat(CsvFiles.values(trace, ChannelName.I1)).containsExactly(1.5, 2.5, 3.5);
    assertThat(trace.provenance().understood().toString()).contains("Strömung");
  }

  @Test
  void utf16WithoutMarkIsSeenByItsZeros() throws Exception {
    byte[] bytes = CANONICAL.getBytes(StandardCharsets.UTF_16LE);
    Trace trace = CsvTraceReader.read(files.file(bytes), ColumnMapping.NONE, null);
    assertThat(trace.provenance().understood().get(0)).contains("no byte-order mark");
    assertThat(CsvFiles.values(trace, ChannelName.I3)).containsExactly(3.5, 6.5, 9.5);
  }

  @ParameterizedTest
  @ValueSource(strings = {",", ";", "\t", "|", " ", "   ", " \t "})
  void separatorsAreFoundOut(String separator) throws Exception {
    String text = "time_s,i1_A,speed_rpm\n0.0,1.25,100\n0.5,-2.5,200\n1.0,3e2,300\n";
    Trace trace = files.read(text.replace(",", separator));
    assertThat(CsvFiles.times(trace)).containsExactly(0, 0.5, 1.0);
    assertThat(CsvFiles.values(trace, ChannelName.I1)).containsExactly(1.25, -2.5, 300);
    assertThat(CsvFiles.values(trace, ChannelName.SPEED)).containsExactly(100, 200, 300);
  }

  @ParameterizedTest
  @ValueSource(strings = {";", "\t", "|", "  "})
  void decimalCommasAreFoundOut(String separator) throws Exception {
    String text = "t[s];I_L1[kA];n[1/min]\n0,0;0,125;100,5\n0,5;-0,25;200\n1,0;1,5e-1;300\n";
    Trace trace = files.read(text.replace(";", separator));
    assertThat(CsvFiles.values(trace, ChannelName.I1)).containsExactly(125, -250, 150);
    assertThat(CsvFiles.values(trace, ChannelName.SPEED)).containsExactly(100.5, 200, 300);
    assertThat(trace.provenance().understood().get(0)).contains("decimal comma");
  }

  @ParameterizedTest
  @ValueSource(strings = {"\n", "\r\n", "\r", "\r\r\n"})
  void lineEndsAreFoundOut(String end) throws Exception {
    Trace trace = files.read("time_s,i1_A\n0.0,1\n0.5,2\n1.0,3".replace("\n", end));
    assertThat(CsvFiles.values(trace, ChannelName.I1)).containsExactly(1, 2, 3);
  }

  @Test
  void preambleUnitRowAndRemarksAreToldFromTheTable() throws Exception {
    Trace trace =
        files.read(
            "Logger export;version 3\nSerial;4711\nComment;\"started; then left\"\n\n"
                + "Zeit;Strom L1;Strom L2;Drehzahl\ns;kA;A;1/min\n"
                + "0,00;0,1;100;0\n0,02;0,2;200;5\n\n0,04;0,3;300;10\nend of data\n");
    assertThat(CsvFiles.values(trace, ChannelName.I1)).containsExactly(100, 200, 300);
    assertThat(CsvFiles.values(trace, ChannelName.I2)).containsExactly(100, 200, 300);
    assertThat(trace.provenance().notes())
        .contains("Logger export;version 3", "Comment;\"started; then left\"");
    assertThat(trace.provenance().understood().get(0))
        .contains("header on line 5, rows from line 7");
    assertThat(trace.provenance().warnings())
        .containsExactly(
            "1 rows with the wrong number of cells, left out; first at line 11 (\"1 cells\")");
  }

  @Test
  void headerBehindACommentSignIsUsed() throws Exception {
    Trace trace = files.read("# made by a script\n# time_s i1_A\n0.0 1\n0.1 2\n0.2 3\n");
    assertThat(CsvFiles.values(trace, ChannelName.I1)).containsExactly(1, 2, 3);
    assertThat(trace.provenance().notes()).containsExactly("made by a script");
  }

  @Test
  void quotedFieldsFollowRfc4180() throws Exception {
    Trace trace =
        files.read(
            "\"time [s]\",\"Current, \"\"L1\"\"\n[A]\",\"note\"\n"
                + "\"0.0\",\"1,234.5\",\"a, b\"\n\"0.1\",\"2.5\",\"say \"\"hm\"\"\"\n\"0.2\",3,\n");
    assertThat(CsvFiles.values(trace, ChannelName.I1)).containsExactly(1234.5, 2.5, 3);
    assertThat(trace.provenance().warnings())
        .containsExactly(
            "1 cells with thousands separators, read without them; first at line 3 column 2"
                + " (\"1,234.5\")");
  }

  @Test
  void thousandsPointsAndBlanksAreReadWithDecimalCommas() throws Exception {
    Trace trace =
        files.read("t [s];U12 [V]\n0,0;1.234,5\n0,1;1 234,5\n0,2;1\u00a0234\n0,3;12,5\n0,4;0,5\n");
    assertThat(CsvFiles.values(trace, ChannelName.V12)).startsWith(1234.5, 1234.5);
  }

  @Test
  void cellsWithoutReadingAreMissingAndCounted() throws Exception {
    Trace trace =
        files.read(
            "time_s,i1_A,i2_A\n0.0,1,1\n0.1,OVERLOAD,1\n0.2,NaN,1\n0.3,-,1\n0.4,Inf,1\n0.5,broken,1\n"
                + "0.6,,1\n0.7,1e999,1\n0.8,9,1\n");
    double[] i1 = CsvFiles.values(trace, ChannelName.I1);
    assertThat(i1).hasSize(9).endsWith(9).startsWith(1);
    for (int i = 1; i < 8; i++) {
      assertThat(i1[i]).isNaN();
    }
    assertThat(trace.provenance().warnings())
        .containsExactly(
            "1 blank cells, marked missing; first at line 8 column 2",
            "3 cells that say there is no reading, marked missing; first at line 3 column 2"
                + " (\"OVERLOAD\"), line 4 column 2 (\"NaN\"), line 5 column 2 (\"-\")",
            "2 infinite cells, marked missing; first at line 6 column 2 (\"Inf\"), line 9 column 2"
                + " (\"1e999\")",
            "1 cells that are not numbers, marked missing; first at line 7 column 2 (\"broken\")");
  }

  @Test
  void runCommandMayBeWords() throws Exception {
    Trace trace = files.read("time_s;i1_A;Running\n0;1;off\n1;2;ON\n2;3;1\n3;3;false\n");
    assertThat(CsvFiles.values(trace, ChannelName.RUN)).containsExactly(0, 1, 1, 0);
  }

  @Test
  void percentNeedsTheRatedValue() throws Exception {
    String text = "time_s,Current L1 (% In),Speed (%)\n0,100,0\n1,350,50\n2,90,100\n";
    ReadContext context = new ReadContext(1482.0, 160.0, null, null, null, null, null);
    Trace trace = files.read(text, context);
    assertThat(CsvFiles.values(trace, ChannelName.I1)[1]).isCloseTo(560, within(1e-9));
    assertThat(CsvFiles.values(trace, ChannelName.SPEED)).containsExactly(0, 741, 1482);

    Trace without = files.read("time_s,i1_A,Speed (%)\n0,100,0\n1,350,50\n2,90,100\n");
    assertThat(without.names()).containsExactly(ChannelName.I1);
    assertThat(without.provenance().warnings())
        .containsExactly(
            "column 3 \"Speed (%)\" is left out: it is in %; the rated value it refers to is not"
                + " known; name the asset, or give a scale");
  }

  @Test
  void hertzNeedsPolePairs() throws Exception {
    String text = "time_s,i1_A,Motor speed [Hz]\n0,100,0\n1,350,25\n2,90,50\n";
    ReadContext context = new ReadContext(null, null, null, null, null, 2, null);
    assertThat(CsvFiles.values(files.read(text, context), ChannelName.SPEED))
        .containsExactly(0, 750, 1500);
    assertThat(files.read(text).provenance().warnings().toString())
        .contains("turns per second or electrical frequency");
  }

  @Test
  void rulesWinOverHeaders() throws Exception {
    ColumnMapping mapping =
        new ColumnMapping(
            Map.of(
                "i1",
                new ColumnRule("i3_A", null, null, 2.0, 1.0),
                "speed",
                CsvFiles.at(2, "rad/s")));
    Trace trace = files.read("time_s,i1_A,i3_A\n0,1,10\n1,2,20\n", mapping);
    assertThat(CsvFiles.values(trace, ChannelName.I1)).containsExactly(21, 41);
    assertThat(CsvFiles.values(trace, ChannelName.SPEED)[0]).isCloseTo(9.5492966, within(1e-7));
    assertThat(trace.names()).doesNotContain(ChannelName.I3);
    assertThat(trace.provenance().understood())
        .contains("i1 <- column 3 \"i3_A\": A x 2 + 1 = A; given");
  }

  @Test
  void rateStandsInForATimeColumn() throws Exception {
    ColumnMapping mapping = new ColumnMapping(Map.of("i1", CsvFiles.at(1, "A")), 1000.0);
    Trace trace = files.read("1.5\n2.5\n3.5\n", mapping);
    assertThat(trace.time()).isEqualTo(new EvenTime(0, 1e-3, 3));
    assertThat(CsvFiles.values(trace, ChannelName.I1)).containsExactly(1.5, 2.5, 3.5);
    assertThat(trace.provenance().understood().get(1))
        .isEqualTo(
            "time <- row number: value x 0.001 = s; rate given, no column of time; 3 rows at that"
                + " rate, 1000 Hz");
  }

  @Test
  void onlyCurrentIsPhaseOne() throws Exception {
    Trace trace = files.read("Time (s),Motor current (A),Oil temperature (°C)\n0,1,20\n1,2,20\n");
    assertThat(trace.names()).containsExactly(ChannelName.I1);
    assertThat(trace.provenance().understood())
        .contains(
            "i1 <- column 2 \"Motor current (A)\": A; the only current; taken as phase 1",
            "not used: column 3 \"Oil temperature (°C)\"");
  }

  @Test
  void whatWasUnderstoodCanBeHadBeforeReading() throws Exception {
    CsvUnderstanding understood =
        CsvTraceReader.understand(
            files.file("Zeit [ms];Strom L1 [kA]\n0;0,5\n10;0,6\n"),
            ColumnMapping.NONE,
            ReadContext.NONE,
            CsvLimits.standard());
    assertThat(understood.lines())
        .containsExactly(
            "table: UTF-8; cells parted by \";\", decimal comma; header on line 1, rows from line 2",
            "time <- column 1 \"Zeit [ms]\": ms x 0.001 = s",
            "i1 <- column 2 \"Strom L1 [kA]\": kA x 1000 = A");
  }

  @Test
  void numbersBeyondTheHeapShareGoToAFile() throws Exception {
    StringBuilder text = new StringBuilder("time_s,i1_A\n");
    for (int i = 0; i < 60_000; i++) {
      text.append(i / 1000.0).append(',').append(i % 977).append('\n');
    }
    CsvLimits limits = new CsvLimits(1 << 16, 100, 10_000, 2);
    Trace trace =
        CsvTraceReader.read(
            files.file(text.toString()), ColumnMapping.NONE, null, ReadContext.NONE, limits);
    Trace inMemory = files.read(text.toString());
    assertThat(trace.channel(ChannelName.I1).getClass())
        .isNotEqualTo(inMemory.channel(ChannelName.I1).getClass());
    assertThat(CsvFiles.values(trace, ChannelName.I1))
        .isEqualTo(CsvFiles.values(inMemory, ChannelName.I1));
    assertThat(trace.time()).isEqualTo(inMemory.time());
  }

  @Test
  void manyBlocksGiveTheSameRowsAndLines() throws Exception {
    StringBuilder text = new StringBuilder("time_s,i1_A\n");
    int rows = 200_000;
    for (int i = 0; i < rows; i++) {
      text.append(i / 1000.0).append(',').append(i == 150_000 ? "oops" : Integer.toString(i));
      text.append('\n');
      if (i == 120_000) {
        text.append("cut\n");
      }
    }
    assertThat(text.length()).isGreaterThan(2 * CsvPipeline.BLOCK);
    Trace trace = files.read(text.toString());
    double[] i1 = CsvFiles.values(trace, ChannelName.I1);
    assertThat(i1).hasSize(rows);
    for (int i = 0; i < rows; i++) {
      if (i != 150_000) {
        assertThat(i1[i]).isEqualTo(i);
      }
    }
    assertThat(trace.provenance().warnings())
        .containsExactly(
            "1 cells that are not numbers, marked missing; first at line 150003 column 2 (\"oops\")",
            "1 rows with the wrong number of cells, left out; first at line 120003 (\"1 cells\")");
  }

  private static byte[] gzip(byte[] plain) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (GZIPOutputStream out = new GZIPOutputStream(bytes)) {
      out.write(plain);
    }
    return bytes.toByteArray();
  }
}
