package rampwright.acquisition.file;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Map;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Trace;

/** Files that are broken, cut, ambiguous or no tables at all: the message and what is kept. */
class CsvBrokenFilesTest {
  @TempDir Path folder;
  private CsvFiles files;

  @BeforeEach
  void files() {
    files = new CsvFiles(folder);
  }

  @Test
  void emptyFile() {
    assertThat(files.message(""))
        .isEqualTo("trace.csv: is empty (0 bytes); record or copy it anew");
  }

  @Test
  void blankLinesOnly() {
    assertThat(files.message("\n \n\t\n"))
        .isEqualTo("trace.csv: holds only blank lines; record or export it anew");
  }

  @Test
  void headerOnly() {
    assertThat(files.message("time_s,i1_A\n"))
        .isEqualTo(
            "trace.csv: holds no row of numbers, only 1 line of text (\"time_s,i1_A\"); a header line"
                + " and rows of readings were expected; record or export it anew");
  }

  @Test
  void oneRow() {
    assertThat(files.message("time_s,i1_A\n0.5,3\n"))
        .isEqualTo(
            "trace.csv: holds fewer than two rows with increasing time; a trace needs at least two");
  }

  @Test
  void directory() {
    assertThat(CsvFiles.message(folder, ColumnMapping.NONE))
        .endsWith("is a directory; a trace file was expected; name the file inside it");
  }

  @Test
  void missingFile() {
    assertThat(CsvFiles.message(folder.resolve("none.csv"), ColumnMapping.NONE))
        .isEqualTo("none.csv: there is no such file; check the name");
  }

  @Test
  void spreadsheetArchive() {
    byte[] bytes = {'P', 'K', 3, 4, 20, 0, 0, 0, 8, 0};
    assertThat(CsvFiles.message(files.file(bytes), ColumnMapping.NONE))
        .isEqualTo(
            "trace.csv: is a ZIP archive or a spreadsheet, not text; unpack it or export it as CSV");
  }

  @Test
  void binary() {
    byte[] bytes = new byte[5000];
    for (int i = 0; i < bytes.length; i++) {
      bytes[i] = (byte) (i * 7919 >> 3);
    }
    assertThat(CsvFiles.message(files.file(bytes), ColumnMapping.NONE))
        .contains("holds bytes that are not text")
        .endsWith("a table in a text file was expected; export the recording as CSV");
  }

  @Test
  void binaryInsideTextLosesTheRowOnly() throws Exception {
    Trace trace = files.read("time_s,i1_A\n0.0,1\n0.1,2\u0000\u0001\n0.2,3\n0.4,5\n0.5,6\n0.6,7\n");
    assertThat(CsvFiles.values(trace, ChannelName.I1)).containsExactly(1, 3, 5, 6, 7);
    assertThat(trace.provenance().warnings())
        .containsExactly("1 rows with bytes that are not text, left out; first at line 3");
  }

  @Test
  void lastLineCutOff() throws Exception {
    Trace trace = files.read("time_s,i1_A,i2_A\n0.0,1,2\n0.1,2,3\n0.2,3,4\n0.3,4");
    assertThat(trace.size()).isEqualTo(3);
    assertThat(trace.provenance().warnings())
        .containsExactly(
            "1 rows with the wrong number of cells, left out; first at line 5 (\"2 cells\")",
            "the last line has no line end; the file may be cut off");
  }

  @Test
  void wrongNumberOfCells() throws Exception {
    Trace trace =
        files.read("time_s,i1_A,i2_A\n0.0,1,2\n0.1,2\n0.2,3,4,5\n0.3,4,5\n0.4,4,5,,\n0.5,1,1\n");
    assertThat(CsvFiles.times(trace)).containsExactly(0, 0.3, 0.4, 0.5);
    assertThat(trace.provenance().warnings())
        .containsExactly(
            "2 rows with the wrong number of cells, left out; first at line 3 (\"2 cells\"), line 4"
                + " (\"4 cells\")");
  }

  @Test
  void unreadableTimeLosesTheRow() throws Exception {
    Trace trace = files.read("time_s,i1_A\n0.0,1\nnever,2\n,2\n0.2,3\n0.3,3\n0.4,3\n");
    assertThat(CsvFiles.values(trace, ChannelName.I1)).containsExactly(1, 3, 3, 3);
    assertThat(trace.provenance().warnings())
        .containsExactly(
            "2 rows whose time cannot be read, left out; first at line 3 column 1 (\"never\"), line 4"
                + " column 1");
  }

  @Test
  void mostlyUnusableRows() {
    assertThat(files.message("time_s,i1_A\n0.0,1\nx,1\ny,1\nz,1\n"))
        .isEqualTo(
            "trace.csv line 3: 3 of 4 rows cannot be used (3 rows whose time cannot be read, left out;"
                + " first at line 3 column 1 (\"x\"), line 4 column 1 (\"y\"), line 5 column 1"
                + " (\"z\")); export it anew or mend these lines");
  }

  @Test
  void commasForEverything() {
    assertThat(files.message("Zeit [s],Strom L1 [A]\n0,0,1,5\n0,1,2,5\n0,2,3,5\n"))
        .isEqualTo(
            "trace.csv: its rows have 4 cells under 2 headers: commas seem to part both cells and"
                + " decimals, which cannot be told apart; export it with semicolons or decimal"
                + " points");
  }

  @Test
  void noTime() {
    assertThat(files.message("# Sampling rate: high\nNr,i1_A\n1,2\n2,3\n"))
        .isEqualTo(
            "trace.csv: no column tells the time; columns are 1 \"Nr\", 2 \"i1_A\"; 1 \"Nr\" seems to"
                + " count rows: give it with scale = seconds per count; say which in a [columns] table"
                + " (in settings.toml or with --columns FILE), for example:\n"
                + "[columns]\n"
                + "time = { name = \"Nr\", unit = \"s\" }\n"
                + "# or, when the rows are evenly spaced: time = { rate_Hz = 1000 }");
  }

  @Test
  void unlabelledCurrents() {
    assertThat(files.message("time_s,Current (A),Current (A)\n0,1,2\n1,2,3\n"))
        .isEqualTo(
            "trace.csv line 1: 2 columns could be i1: 2 \"Current (A)\", 3 \"Current (A)\"; say which"
                + " in a [columns] table (in settings.toml or with --columns FILE), for example:\n"
                + "[columns]\n"
                + "i1 = { index = 2 }");
  }

  @Test
  void twoColumnsForOneChannel() {
    assertThat(files.message("time_s,Strom L1 [A],Current R [A]\n0,1,2\n1,2,3\n"))
        .startsWith(
            "trace.csv line 1: 2 columns could be i1: 2 \"Strom L1 [A]\", 3 \"Current R [A]\"");
  }

  @Test
  void noHeader() {
    assertThat(files.message("0.0,1,2\n0.1,2,3\n0.2,3,2\n"))
        .isEqualTo(
            "trace.csv: has no header line, so that its 3 columns cannot be told apart; say which in a"
                + " [columns] table (in settings.toml or with --columns FILE), for example:\n"
                + "[columns]\n"
                + "time = { index = 1, unit = \"s\" }\n"
                + "i1 = { index = 2, unit = \"A\" }");
  }

  @Test
  void sensorVoltsNeedAScale() {
    ColumnMapping mapping = CsvFiles.mapping("i1", CsvFiles.named("Current L1 [V]", null));
    assertThat(files.message("time_s,Current L1 [V]\n0,1\n1,2\n", mapping))
        .isEqualTo(
            "trace.csv line 1 column 2: [columns] i1: column 2 \"Current L1 [V]\" is in V, i1 is in A;"
                + " give scale (A per V), for example:\n"
                + "[columns]\n"
                + "i1 = { name = \"Current L1 [V]\", unit = \"V\", scale = 100.0 }");
    assertThat(files.message("time_s,Current L1 [V]\n0,1\n1,2\n"))
        .contains("column 2 \"Current L1 [V]\" is in V, i1 is in A; give scale (A per V)");
  }

  @Test
  void wrongRules() {
    String text = "time_s,i1_A,i2_A\n0,1,2\n1,2,3\n";
    assertThat(files.message(text, CsvFiles.mapping("amps", CsvFiles.at(2, "A"))))
        .startsWith("trace.csv: [columns] amps is no channel; channels are time, i1, i2, i3, v12");
    assertThat(files.message(text, CsvFiles.mapping("i1", CsvFiles.at(7, "A"))))
        .isEqualTo(
            "trace.csv: [columns] i1: index = 7, but the file has columns 1 to 3: 1 \"time_s\", 2"
                + " \"i1_A\", 3 \"i2_A\"");
    assertThat(files.message(text, CsvFiles.mapping("i1", CsvFiles.at(2, "furlong"))))
        .contains("[columns] i1: the unit \"furlong\" is not known");
    assertThat(files.message(text, CsvFiles.mapping("time", CsvFiles.at(1, "A"))))
        .contains("[columns] time: \"A\" is no unit of time that is known");
  }

  @Test
  void tooLongALine() {
    byte[] bytes = new byte[3 << 20];
    Arrays.fill(bytes, (byte) '7');
    byte[] head = "time_s,i1_A\n0,1\n1,2\n".getBytes(StandardCharsets.UTF_8);
    assertThat(CsvFiles.message(files.file(bytes), ColumnMapping.NONE))
        .startsWith("trace.csv line 1: is longer than the 1048576 bytes a line may have");
    System.arraycopy(head, 0, bytes, 0, head.length);
    assertThat(CsvFiles.message(files.file(bytes), ColumnMapping.NONE))
        .startsWith("trace.csv line 4: is longer than 1048576 bytes");
  }

  @Test
  void tooManyColumns() {
    String row = "1,".repeat(20_000) + "1\n";
    assertThat(files.message(row.replace("1", "x") + row + row))
        .startsWith("trace.csv line 2 column 10001: the table has 20001 columns; at most 10000");
  }

  @Test
  void archiveCutOffGivesWhatItHolds() throws Exception {
    StringBuilder text = new StringBuilder("time_s,i1_A\n");
    for (int i = 0; i < 50_000; i++) {
      text.append(i / 1000.0).append(',').append(i * 7919 % 1009).append('\n');
    }
    byte[] whole = gzip(text.toString());
    byte[] half = Arrays.copyOf(whole, whole.length / 2);
    Trace trace = CsvTraceReader.read(files.file(half), ColumnMapping.NONE, null);
    assertThat(trace.size()).isBetween(10_000, 49_999);
    assertThat(trace.provenance().warnings().toString())
        .contains("the gzip archive ends early or is damaged")
        .contains("what could be unpacked is used");
    assertThat(CsvFiles.message(files.file(Arrays.copyOf(whole, 12)), ColumnMapping.NONE))
        .startsWith("trace.csv: ");
  }

  @Test
  void archiveThatUnpacksToOneEndlessLineIsRefused() throws Exception {
    byte[] packed = gzip("0".repeat(50_000_000));
    assertThat(packed.length).isLessThan(100_000);
    assertThat(CsvFiles.message(files.file(packed), ColumnMapping.NONE))
        .contains("is longer than the 1048576 bytes a line may have");
  }

  @Test
  void nothingIsLeftInTheTemporaryFolder() throws Exception {
    Path temporary = Path.of(System.getProperty("java.io.tmpdir"));
    long before = samplesIn(temporary);
    CsvLimits limits = new CsvLimits(4096, 100, 0, 1);
    Trace trace =
        CsvTraceReader.read(
            files.file("time_s,i1_A\n0,1\n1,2\n"),
            new ColumnMapping(Map.of()),
            null,
            ReadContext.NONE,
            limits);
    assertThat(CsvFiles.values(trace, ChannelName.I1)).containsExactly(1, 2);
    assertThat(samplesIn(temporary)).isEqualTo(before);
  }

  private static long samplesIn(Path folder) throws IOException {
    try (var names = Files.list(folder)) {
      return names.filter(p -> p.getFileName().toString().endsWith(".samples")).count();
    }
  }

  private static byte[] gzip(String text) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (GZIPOutputStream out = new GZIPOutputStream(bytes)) {
      out.write(text.getBytes(StandardCharsets.UTF_8));
    }
    return bytes.toByteArray();
  }
}
