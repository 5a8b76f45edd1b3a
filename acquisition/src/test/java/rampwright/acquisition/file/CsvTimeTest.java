package rampwright.acquisition.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.ZoneId;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.EvenTime;
import rampwright.analysis.trace.ListedTime;
import rampwright.analysis.trace.Trace;

/** Time axes: seconds, counters, wall clocks, and clocks that misbehave. */
class CsvTimeTest {
  private static final double ROUNDING = 1e-12;

  @TempDir Path folder;
  private CsvFiles files;

  @BeforeEach
  void files() {
    files = new CsvFiles(folder);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "2026-03-14 09:12:05.250 | 2026-03-14 09:12:06.750 | 1.5",
        "2026-03-14T09:12:05Z | 2026-03-14T09:12:06.5Z | 1.5",
        "2026/03/14 09:12:05 | 2026/03/14 09:12:06 | 1",
        "14.03.2026 09:12:05,250 | 14.03.2026 09:12:06,750 | 1.5",
        "14.03.26 09:12:05 | 14.03.26 09:12:07 | 2",
        "14/03/2026 23:59:59 | 15/03/2026 00:00:01 | 2",
        "03/14/2026 11:59:59 AM | 03/14/2026 12:00:01 PM | 2",
        "3/14/2026 11:59:59 PM | 3/15/2026 12:00:01 AM | 2",
        "14-Mar-2026 09:12:05.1 | 14-Mar-2026 09:12:05.4 | 0.3",
        "20260314T091205 | 20260314T091206 | 1",
        "2026-03-14T09:12:05+01:00 | 2026-03-14T09:12:05+00:00 | 3600",
        "09:12:05.123456789 | 09:12:05.123456999 | 2.1e-7",
        "23:59:59.5 | 00:00:00.5 | 1",
        "12:34.5 | 12:35.0 | 0.5",
      })
  void wallClocksAreSecondsSinceTheFirstRow(String first, String second, double stepS)
      throws Exception {
    Trace trace = files.read("When;Strom L1 [A]\n" + first + ";1\n" + second + ";2\n");
    assertThat(trace.time().atS(0)).isZero();
    assertThat(trace.time().atS(1)).isCloseTo(stepS, within(ROUNDING));
    assertThat(CsvFiles.values(trace, ChannelName.I1)).containsExactly(1, 2);
  }

  @Test
  void dateAndTimeMayStandApart() throws Exception {
    Trace trace =
        files.read(
            "Datum;Uhrzeit;Strom L1 [A]\n14.03.2026;23:59:59,5;1\n15.03.2026;00:00:00,5;2\n"
                + "15.03.2026;00:00:01,5;3\n");
    assertThat(CsvFiles.times(trace)).containsExactly(0, 1, 2);
    assertThat(trace.provenance().startUtc()).isNull();
    assertThat(trace.provenance().warnings())
        .containsExactly(
            "the stamps name no offset from UTC; the instant of time 0 (2026-03-14T23:59:59.500 on"
                + " the recorder's clock) is left open");
  }

  @Test
  void offsetOrZoneTellsTheInstant() throws Exception {
    Trace own = files.read("t,i1_A\n2026-03-14T10:12:05+01:00,1\n2026-03-14T10:12:06+01:00,2\n");
    assertThat(own.provenance().startUtc()).isEqualTo("2026-03-14T09:12:05Z");
    ReadContext there = new ReadContext(null, null, null, null, null, null, ZoneId.of("+05:45"));
    Trace given = files.read("t,i1_A\n2026-03-14 10:12:05,1\n2026-03-14 10:12:06,2\n", there);
    assertThat(given.provenance().startUtc()).isEqualTo("2026-03-14T04:27:05Z");
  }

  @Test
  void ambiguousDateLeavesTheDayOpenButNotTheTime() throws Exception {
    Trace trace = files.read("t,i1_A\n03/04/2026 10:00:00,1\n03/04/2026 10:00:01,2\n");
    assertThat(CsvFiles.times(trace)).containsExactly(0, 1);
    assertThat(trace.provenance().startUtc()).isNull();
    assertThat(trace.provenance().warnings().get(0))
        .isEqualTo(
            "the date \"03/04/2026 10:00:00\" may be day first or month first; the day of the"
                + " recording is left open");
  }

  @Test
  void ambiguousDateThatChangesIsAnError() {
    assertThat(files.message("t,i1_A\n03/04/2026 10:00:00,1\n04/04/2026 10:00:01,2\n"))
        .isEqualTo(
            "trace.csv line 3: the date changes and could be day first or month first; no value"
                + " above 12 tells which; say which in a [columns] table (in settings.toml or with"
                + " --columns FILE), for example:\n"
                + "[columns]\n"
                + "time = { index = 1, unit = \"dd/mm/yyyy\" }\n"
                + "# or: time = { index = 1, unit = \"mm/dd/yyyy\" }");
  }

  @Test
  void epochSecondsKeepTheirDigits() throws Exception {
    Trace trace =
        files.read("time_s,i1_A\n1773479525.000001,1\n1773479525.000002,2\n1773479525.000003,3\n");
    assertThat(trace.time()).isEqualTo(new EvenTime(0, 1e-6, 3));
    assertThat(trace.provenance().startUtc()).isEqualTo("2026-03-14T09:12:05.000001Z");
  }

  @Test
  void counterWithStepInTheUnitRowIsATime() throws Exception {
    Trace trace =
        files.read(
            "X,Current L1,Start,Increment,\nSequence,Ampere,-0.5,0.25,\n0,1.5,\n1,2.5,\n2,3.5,\n");
    assertThat(CsvFiles.times(trace)).containsExactly(-0.5, -0.25, 0);
    assertThat(CsvFiles.values(trace, ChannelName.I1)).containsExactly(1.5, 2.5, 3.5);
  }

  @Test
  void counterWithAGivenStepIsATime() throws Exception {
    ColumnMapping mapping = CsvFiles.mapping("time", CsvFiles.scaled("Nr", 0.001));
    Trace trace = files.read("Nr;Strom L1 [A]\n10;1\n11;2\n12;3\n", mapping);
    assertThat(trace.time()).isEqualTo(new EvenTime(0.01, 0.001, 3));
  }

  @Test
  void evenWithinTheRoundingOfTheStamps() throws Exception {
    // 3 kHz in stamps of 4 decimals: steps of 0.3 and 0.4 ms.
    Trace trace = files.read(stamps(4000, i -> i / 3000.0, "%.4f"));
    assertThat(trace.time()).isEqualTo(new EvenTime(0, 1 / 3000.0, 4000));
  }

  @Test
  void evenClockOfNoRoundRateIsFound() throws Exception {
    double step = Math.PI * 1e-4;
    Trace trace = files.read(stamps(3000, i -> 0.7 + i * step, "%.6f"));
    EvenTime even = (EvenTime) trace.time();
    assertThat(even.stepS()).isCloseTo(step, within(1e-6 / 3000));
    assertThat(even.startS()).isCloseTo(0.7, within(1e-6));
  }

  @Test
  void oneStampOffByMoreThanItsRoundingMakesTimesUneven() throws Exception {
    Trace trace = files.read(stamps(4000, i -> i / 1000.0 + (i == 2711 ? 0.0004 : 0), "%.4f"));
    assertThat(trace.time()).isInstanceOf(ListedTime.class);
    assertThat(trace.time().atS(2711)).isEqualTo(2.7114);
  }

  @Test
  void missingRowIsNotSmoothedOver() throws Exception {
    Trace trace = files.read(stamps(500, i -> i < 250 ? i : i + 1, "%.0f"));
    assertThat(trace.time()).isInstanceOf(ListedTime.class);
  }

  @Test
  void jitterKeepsItsTimes() throws Exception {
    SplittableRandom random = new SplittableRandom(5);
    double[] jitter = random.doubles(100, 0, 0.004).toArray();
    Trace trace = files.read(stamps(100, i -> i * 0.02 + jitter[i], "%.6f"));
    assertThat(trace.time()).isInstanceOf(ListedTime.class);
    assertThat(trace.provenance().understood().get(1)).contains("at uneven times, median step");
  }

  @Test
  void coarseStampsAreSpreadWhereAllAgree() throws Exception {
    Trace trace = files.read(stamps(95, i -> Math.floor((i + 3) / 10.0), "%.0f"));
    EvenTime even = (EvenTime) trace.time();
    assertThat(even.stepS()).isCloseTo(0.1, within(1.0 / 94));
    assertThat(trace.size()).isEqualTo(95);
    for (int i = 0; i < 95; i++) {
      assertThat(even.atS(i)).isCloseTo(Math.floor((i + 3) / 10.0), within(1.0));
    }
    assertThat(trace.provenance().warnings().get(0))
        .contains("85 time stamps repeat, first at line 3; rows were spread evenly every");
  }

  @Test
  void strayRepeatsAndStepsBackAreDroppedAndSaid() throws Exception {
    Trace trace =
        files.read(
            "time_s,i1_A\n0,0\n0,1\n0.1,2\n0.25,3\n0.05,4\n0.3,5\n0.5,6\n0.5,7\n0.9,8\n1.5,9\n");
    assertThat(CsvFiles.times(trace)).containsExactly(0, 0.1, 0.25, 0.3, 0.5, 0.9, 1.5);
    assertThat(CsvFiles.values(trace, ChannelName.I1)).containsExactly(0, 2, 3, 5, 6, 8, 9);
    assertThat(trace.provenance().warnings())
        .containsExactly(
            "1 rows run back in time and were left out; first at line 6 (0.05 s after 0.25 s)",
            "2 rows repeat the time stamp before them and were left out; first at line 3");
  }

  @Test
  void clockThatWasResetIsRefused() {
    StringBuilder text = new StringBuilder("time_s,i1_A\n");
    for (int i = 0; i < 40; i++) {
      text.append(i % 20).append(",1\n");
    }
    assertThat(files.message(text.toString()))
        .isEqualTo(
            "trace.csv line 22: time runs back from 19 s to 0 s, and 19 of 40 rows lie before a time"
                + " already passed; times must increase; the clock was reset or the file holds"
                + " several records: split it at this line");
  }

  @Test
  void irregularRepeatsAreRefusedWithTheRemedy() {
    assertThat(files.message("time_s,i1_A\n0,1\n0,1\n0,1\n0,1\n0,1\n1,1\n5,1\n5,1\n5,1\n"))
        .startsWith("trace.csv line 3: 6 of 9 time stamps repeat the one before")
        .contains("[columns]\ntime = { rate_Hz = 1000 }");
  }

  @Test
  void timeWithoutUnitAndWithLongStepsIsAsked() {
    assertThat(files.message("time,i1_A\n0,1\n10,1\n20,1\n"))
        .startsWith(
            "trace.csv line 1 column 1: the time has no unit and steps of 10, which may be seconds or"
                + " milliseconds")
        .endsWith("[columns]\ntime = { name = \"time\", unit = \"ms\" }");
  }

  @Test
  void twoTimesAreAmbiguous() {
    assertThat(files.message("Time (s),Time (ms),i1_A\n0,0,1\n1,1000,1\n"))
        .startsWith(
            "trace.csv line 1: 2 columns could be time: 1 \"Time (s)\", 2 \"Time (ms)\"; say which");
    ColumnMapping mapping = new ColumnMapping(Map.of("time", CsvFiles.named("Time (ms)", null)));
    assertThat(CsvFiles.message(files.file("Time (s),i1_A\n0,1\n"), mapping))
        .contains("no column is named \"Time (ms)\"; columns are 1 \"Time (s)\", 2 \"i1_A\"");
  }

  private interface Stamp {
    double at(int i);
  }

  private static String stamps(int rows, Stamp stamp, String format) {
    StringBuilder text = new StringBuilder("time_s,i1_A\n");
    for (int i = 0; i < rows; i++) {
      text.append(String.format(Locale.ROOT, format, stamp.at(i))).append(',').append(i);
      text.append('\n');
    }
    return text.toString();
  }
}
