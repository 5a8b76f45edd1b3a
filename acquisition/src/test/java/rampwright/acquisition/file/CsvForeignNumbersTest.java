package rampwright.acquisition.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.function.IntFunction;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Trace;

/** Numbers as other countries, programs and recorders write them. */
class CsvForeignNumbersTest {
  /** Time and current of {@code row} are row / 50 s and 100 + row / 4 A. */
  private static final int ROWS = 60;

  @TempDir Path folder;
  private CsvFiles files;

  @BeforeEach
  void files() {
    files = new CsvFiles(folder);
  }

  private static String rows(IntFunction<String> row) {
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < ROWS; i++) {
      text.append(row.apply(i)).append("\r\n");
    }
    return text.toString();
  }

  private static String point(double value) {
    return String.format(Locale.ROOT, "%.2f", value);
  }

  private static String comma(double value) {
    return point(value).replace('.', ',');
  }

  private static double timeS(int row) {
    return row / 50.0;
  }

  private static double currentA(int row) {
    return 100 + row / 4.0;
  }

  private static void assertRead(Trace trace) {
    assertThat(trace.size()).isEqualTo(ROWS);
    for (int i = 0; i < ROWS; i++) {
      assertThat(trace.time().atS(i)).isCloseTo(timeS(i), within(1e-9));
      assertThat(CsvFiles.values(trace, ChannelName.I1)[i]).isEqualTo(currentA(i));
    }
  }

  @Test
  void decimalCommasInQuotesAmongCommas() throws Exception {
    Trace trace =
        files.read(
            "\"Zeit [s]\",\"Strom L1 [A]\"\r\n"
                + rows(i -> '"' + comma(timeS(i)) + "\",\"" + comma(currentA(i)) + '"'));
    assertRead(trace);
    assertThat(trace.provenance().understood().get(0))
        .contains("cells parted by \",\", decimal comma inside quotes");
  }

  @Test
  void decimalCommasInQuotesBesideWholeNumbersWithout() throws Exception {
    Trace trace =
        files.read(
            "Zeit [s],Strom L1 [A],Drehzahl [1/min]\r\n"
                + rows(
                    i ->
                        (i % 50 == 0 ? Integer.toString(i / 50) : '"' + comma(timeS(i)) + '"')
                            + ",\""
                            + comma(currentA(i))
                            + "\","
                            + i));
    assertRead(trace);
    assertThat(CsvFiles.values(trace, ChannelName.SPEED)[41]).isEqualTo(41);
  }

  @Test
  void thousandsInQuotesStayThousands() throws Exception {
    Trace trace =
        files.read(
            "Time [ms],Current L1 [A]\r\n"
                + rows(i -> String.format(Locale.ROOT, "\"%,d\",%.2f", 20 * i, currentA(i))));
    assertRead(trace);
    assertThat(trace.provenance().warnings().toString())
        .contains(
            "10 cells with thousands separators, read without them; first at line 52 column 1");
  }

  @ParameterizedTest
  @ValueSource(strings = {"E", "e", "D", "d"})
  void exponentsOfEveryLanguage(String mark) throws Exception {
    IntFunction<String> row =
        i -> String.format(Locale.ROOT, "+%.6e,+%.6e", timeS(i), currentA(i)).replace("e", mark);
    assertRead(files.read("Time [s],Current L1 [A]\r\n" + rows(row)));
  }

  @Test
  void doublePrecisionExponentsKeepEveryDigit() throws Exception {
    Trace trace = files.read("Time [s],Current L1 [A]\n0,1.2345678901234567D+02\n1,1D-300\n");
    assertThat(CsvFiles.values(trace, ChannelName.I1))
        .containsExactly(1.2345678901234567E+02, 1E-300);
  }

  @Test
  void epochsWithDoublePrecisionExponents() throws Exception {
    Trace trace = files.read("time_s,i1_A\n1.773479525D9,1\n1.773479526D9,2\n");
    assertThat(trace.provenance().startUtc()).isEqualTo("2026-03-14T09:12:05Z");
  }

  @ParameterizedTest
  @ValueSource(strings = {"\u202f", "\u00a0", "'", "\u2019", "."})
  void thousandsSeparatorsOfEveryCountry(String mark) throws Exception {
    Trace trace =
        files.read(
            "Zeit [s];Strom L1 [A];Drehzahl [1/min]\n0,5;1,5;998,5\n0,6;1,5;1" + mark + "006,7\n");
    assertThat(CsvFiles.values(trace, ChannelName.SPEED)).containsExactly(998.5, 1006.7);
  }

  @Test
  void minusSignsOfTypesetters() throws Exception {
    Trace trace = files.read("Time [s];U L1-L2 [V];I L1 [A]\n0.5;\u221212.5;1\n0.6;12.5;2\n");
    assertThat(CsvFiles.values(trace, ChannelName.V12)).containsExactly(-12.5, 12.5);
  }

  @ParameterizedTest
  @CsvSource({
    "-9999, '', 1",
    "9999, '', 1",
    "65535, '', 1",
    "-32768, k, 1000",
    "9.9E+37, '', 1",
    "9.91E37, m, 0.001",
    "1e30, '', 1",
    "-999.25, '', 1"
  })
  void marksForNoReadingAreMissing(String mark, String prefix, double factor) throws Exception {
    Trace trace =
        files.read(
            "Time [s],Current L1 ["
                + prefix
                + "A]\n"
                + rows(i -> point(timeS(i)) + ',' + (i % 20 == 7 ? mark : point(currentA(i)))));
    double[] values = CsvFiles.values(trace, ChannelName.I1);
    assertThat(values[7]).isNaN();
    assertThat(values[27]).isNaN();
    assertThat(values[8]).isEqualTo(currentA(8) * factor);
    assertThat(Arrays.stream(values).filter(Double::isNaN).count()).isEqualTo(3);
    assertThat(trace.provenance().warnings().toString())
        .contains("3 values of ")
        .contains(" in column 2 \"Current L1 [" + prefix + "A]\" are marks for no reading");
  }

  @Test
  void marksInAMappedFileAreMissingToo() throws Exception {
    Path file =
        files.file(
            "Time [s],Current L1 [A]\n"
                + rows(i -> point(timeS(i)) + ',' + (i % 20 == 7 ? "-9999" : "100")));
    Trace trace =
        CsvTraceReader.read(
            file, ColumnMapping.NONE, null, ReadContext.NONE, new CsvLimits(1024, 10, 0, 1));
    assertThat(Arrays.stream(CsvFiles.values(trace, ChannelName.I1)).filter(Double::isNaN).count())
        .isEqualTo(3);
  }

  @Test
  void valuesNearTheRestAreNoMarks() throws Exception {
    // A clipped input stands at the end of its range as well, but the readings lead up to it.
    Trace trace = files.read("Time [s],U L1-L2 [V]\n0,999\n0.5,999\n1,400\n1.5,999\n");
    assertThat(CsvFiles.values(trace, ChannelName.V12)).containsExactly(999, 999, 400, 999);
  }

  @Test
  void aSingleMarkIsKeptAndSaid() throws Exception {
    Trace trace = files.read("Time [s],Current L1 [A]\n0,1\n0.5,9999\n1,2\n");
    assertThat(CsvFiles.values(trace, ChannelName.I1)).containsExactly(1, 9999, 2);
    assertThat(trace.provenance().warnings())
        .contains(
            "column 2 \"Current L1 [A]\" holds 9999 once, far from all other values; kept, but it may"
                + " be a mark for no reading");
  }

  @ParameterizedTest
  @ValueSource(strings = {"ISO-8859-1", "UTF-8", "UTF-16", "IBM437"})
  void microsecondsInEveryEncoding(String encoding) throws Exception {
    String text =
        "Zeit [\u00b5s];Strom L1 [A]\r\n"
            + rows(i -> String.format(Locale.ROOT, "%d;%s", 20_000 * i, comma(currentA(i))));
    Path file = files.file(text.getBytes(Charset.forName(encoding)));
    assertRead(CsvTraceReader.read(file, ColumnMapping.NONE, null));
  }

  @Test
  void cutOffArchivesGiveTheirGoodPart() throws Exception {
    String text =
        "Time [s],Current L1 [A]\n" + rows(i -> point(timeS(i)) + ',' + point(currentA(i)));
    java.io.ByteArrayOutputStream packed = new java.io.ByteArrayOutputStream();
    try (java.util.zip.GZIPOutputStream out = new java.util.zip.GZIPOutputStream(packed)) {
      out.write(text.getBytes(StandardCharsets.US_ASCII));
    }
    byte[] bytes = packed.toByteArray();
    Path file = files.file(Arrays.copyOf(bytes, bytes.length * 2 / 3));
    Trace trace = CsvTraceReader.read(file, ColumnMapping.NONE, null);
    assertThat(trace.size()).isBetween(5, ROWS - 1);
    assertThat(CsvFiles.values(trace, ChannelName.I1)[4]).isEqualTo(currentA(4));
    assertThat(trace.provenance().warnings())
        .containsOnlyOnce(
            "the gzip archive ends early or is damaged (it ends early); what could be unpacked is"
                + " used");
  }
}
