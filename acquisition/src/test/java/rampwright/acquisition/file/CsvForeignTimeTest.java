package rampwright.acquisition.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.ZoneOffset;
import java.util.Locale;
import java.util.function.IntFunction;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rampwright.analysis.trace.EvenTime;
import rampwright.analysis.trace.Trace;

/** Clocks of spreadsheets, counters that are full, summer time. */
class CsvForeignTimeTest {
  private static final int ROWS = 50;

  @TempDir Path folder;
  private CsvFiles files;

  @BeforeEach
  void files() {
    files = new CsvFiles(folder);
  }

  private static String table(String header, IntFunction<String> time) {
    StringBuilder text = new StringBuilder(header).append(";Current L1 [A]\n");
    for (int i = 0; i < ROWS; i++) {
      text.append(time.apply(i)).append(';').append(i).append('\n');
    }
    return text.toString();
  }

  private static String days(int row) {
    // 2026-03-14 is day 46095 of the spreadsheets' calendar.
    return String.format(Locale.ROOT, "%.9f", 46_095.5 + row * 0.02 / 86_400);
  }

  @Test
  void daysOfSpreadsheetsUnderADateHeader() throws Exception {
    Trace trace = files.read(table("Date/Time", CsvForeignTimeTest::days));
    // Nine decimals of a day are 86 microseconds.
    assertThat(trace.time().atS(0)).isZero();
    assertThat(trace.time().atS(ROWS - 1)).isCloseTo(0.98, within(1e-4));
    assertThat(trace.provenance().understood().get(1))
        .contains("since 1899-12-30 as in spreadsheets; time 0 is 2026-03-14T12:00");
    assertThat(trace.provenance().startUtc()).isNull();
  }

  @Test
  void daysOfSpreadsheetsUnderATimeHeaderAreAskedFor() throws Exception {
    String text = table("Time", CsvForeignTimeTest::days);
    assertThat(files.message(text))
        .contains("begins at 46095.5, which may be days of a spreadsheet's calendar or seconds")
        .endsWith(
            "time = { name = \"Time\", unit = \"d\" }\n# or: time = { name = \"Time\", unit = \"s\" }");
    Trace given = files.read(text, CsvFiles.mapping("time", CsvFiles.named("Time", "d")));
    assertThat(given.time().atS(ROWS - 1)).isCloseTo(0.98, within(1e-4));
  }

  @Test
  void daysOfSpreadsheetsAreDatedInAKnownZone() throws Exception {
    ReadContext there = new ReadContext(null, null, null, null, null, null, ZoneOffset.ofHours(2));
    Trace trace = files.read(table("Timestamp", CsvForeignTimeTest::days), there);
    assertThat(trace.provenance().startUtc()).isEqualTo("2026-03-14T10:00:00Z");
  }

  @Test
  void secondsSinceMidnightAreNoDays() throws Exception {
    Trace trace =
        files.read(table("Time", i -> String.format(Locale.ROOT, "%.2f", 46_095.5 + i * 0.02)));
    assertThat(trace.time().atS(0)).isEqualTo(46_095.5);
  }

  @ParameterizedTest
  @CsvSource({"ms, 65536, 20, 1e-3", "us, 4294967296, 20000, 1e-6", "us, 16777216, 500000, 1e-6"})
  void fullCountersAreCountedOn(String unit, long full, long step, double unitS) throws Exception {
    long first = full - 20 * step - 7;
    Trace trace =
        files.read(table("Time [" + unit + "]", i -> Long.toString((first + i * step) % full)));
    assertThat(trace.size()).isEqualTo(ROWS);
    assertThat(((EvenTime) trace.time()).stepS()).isCloseTo(step * unitS, within(1e-12));
    assertThat(trace.provenance().warnings().toString())
        .contains("the counter of the time is full at " + CsvTimeAxis.number(full))
        .contains("first at line 23");
  }

  @Test
  void aClockThatStartsAnewIsNoFullCounter() {
    assertThat(files.message(table("Time [ms]", i -> Long.toString(i % 25 * 20))))
        .contains("line 27: time runs back from 0.48 s to 0 s");
  }

  private static String local(String date, int hour, int seconds) {
    return String.format(
        Locale.ROOT, "%s %02d:%02d:%02d", date, hour, seconds / 60 % 60, seconds % 60);
  }

  @Test
  void theEndOfSummerTimeIsCountedOn() throws Exception {
    Trace trace =
        files.read(table("Timestamp", i -> local("2026-10-25", 2, i < 20 ? 3580 + i : i - 20)));
    assertThat(trace.time()).isEqualTo(new EvenTime(0, 1, ROWS));
    assertThat(trace.provenance().warnings())
        .contains(
            "the clock falls back by an hour at line 22, as at the end of summer time; the times"
                + " after it were counted on");
  }

  @Test
  void otherFallsOfAClockAreNot() {
    assertThat(
            files.message(
                table("Timestamp", i -> local("2026-10-25", 2, i < 20 ? 3580 + i : i + 100))))
        .contains("line 22: time runs back");
  }

  @Test
  void aLeapOfAnHourIsSaidAndKept() throws Exception {
    Trace trace =
        files.read(
            table(
                "Timestamp", i -> local("2026-03-29", i < 20 ? 1 : 3, i < 20 ? 3580 + i : i - 20)));
    assertThat(trace.time().atS(20)).isEqualTo(3620);
    assertThat(trace.provenance().warnings().toString())
        .contains("the clock leaps by an hour at line 22");
  }

  @ParameterizedTest
  @CsvSource({"dd/mm/yyyy, 2592001", "mm/dd/yyyy, 86401"})
  void aPersonDecidesTheOrderOfDayAndMonth(String order, double stepS) throws Exception {
    Trace trace =
        files.read(
            "t,i1_A\n03/04/2026 10:00:00,1\n03/05/2026 10:00:01,2\n",
            CsvFiles.mapping("time", CsvFiles.named("t", order)));
    assertThat(trace.time().atS(1)).isEqualTo(stepS);
  }

  @ParameterizedTest
  @CsvSource({
    "2026-03-14T09:12:05 GMT+2, 2026-03-14T07:12:05Z",
    "2026-03-14T09:12:05 UTC-05:30, 2026-03-14T14:42:05Z",
    "2026-03-14T09:12:05 GMT, 2026-03-14T09:12:05Z",
    "2026-03-14T09:12:05+02, 2026-03-14T07:12:05Z"
  })
  void zonesInManyForms(String stamp, String utc) throws Exception {
    Trace trace = files.read("t,i1_A\n" + stamp + ",1\n" + stamp.replace(":05", ":06") + ",2\n");
    assertThat(trace.provenance().startUtc()).isEqualTo(utc);
    assertThat(trace.time().atS(1)).isEqualTo(1);
  }
}
