package rampwright.acquisition.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.LocalTime;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.function.IntFunction;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Trace;

/**
 * Habits of loggers' exports: units behind each number, parts of a second in a column of their own,
 * zones by letters, closing rows, a clock that begins again. Common practice, no source.
 */
class CsvLoggerHabitsTest {
  private static final int ROWS = 60;
  private static final double STEP_S = 0.1;

  @TempDir Path folder;
  private CsvFiles files;

  @BeforeEach
  void files() {
    files = new CsvFiles(folder);
  }

  private static String table(String header, IntFunction<String> row) {
    StringBuilder text = new StringBuilder(header).append('\n');
    for (int i = 0; i < ROWS; i++) {
      text.append(row.apply(i)).append('\n');
    }
    return text.toString();
  }

  private static String clock(int row, String pattern) {
    return LocalTime.of(9, 12, 5)
        .plusNanos(Math.round(row * STEP_S * 1e9))
        .format(DateTimeFormatter.ofPattern(pattern, Locale.ROOT));
  }

  private static void everyTenth(Trace trace) {
    assertThat(trace.size()).isEqualTo(ROWS);
    for (int i = 0; i < ROWS; i++) {
      assertThat(trace.time().atS(i)).isCloseTo(i * STEP_S, within(1e-9));
      assertThat(trace.channel(ChannelName.I1).at(i)).isCloseTo(20 + i, within(1e-9));
    }
  }

  @Test
  void unitsBehindEachNumber() throws Exception {
    Trace trace =
        files.read(
            table(
                "time,i1,i2,v12",
                i ->
                    String.format(
                        Locale.ROOT, "%.1f s,%d A,%.3f kA,%d V", i * STEP_S, 20 + i, 0.02, 400)));
    everyTenth(trace);
    assertThat(trace.channel(ChannelName.I2).at(3)).isCloseTo(20, within(1e-9));
    assertThat(trace.channel(ChannelName.V12).at(3)).isEqualTo(400);
    assertThat(trace.provenance().understood())
        .anySatisfy(said -> assertThat(said).contains("i2", "kA", "the unit stands in its cells"));
  }

  @Test
  void aUnitThatChangesFromCellToCellCountsForItsCell() throws Exception {
    Trace trace =
        files.read(
            table(
                "time_s,i1",
                i ->
                    String.format(Locale.ROOT, "%.1f,", i * STEP_S)
                        + (i == 7 ? "27000 mA" : (20 + i) + " A")));
    everyTenth(trace);
  }

  @Test
  void aUnitOfAnotherKindIsNoReading() throws Exception {
    Trace trace =
        files.read(
            table(
                "time_s,i1",
                i ->
                    String.format(
                        Locale.ROOT, "%.1f,%d %s", i * STEP_S, 20 + i, i == 7 ? "V" : "A")));
    assertThat(trace.channel(ChannelName.I1).at(7)).isNaN();
    assertThat(trace.channel(ChannelName.I1).at(8)).isEqualTo(28);
  }

  @Test
  void partsOfASecondInAColumnOfTheirOwn() throws Exception {
    for (String header : new String[] {"time,ms,i1_A", "time,milliseconds,i1_A"}) {
      Trace trace =
          files.read(
              table(
                  header,
                  i ->
                      "2026-03-14 "
                          + clock(i, "HH:mm:ss")
                          + ","
                          + Integer.parseInt(clock(i, "SSS"))
                          + ","
                          + (20 + i)));
      everyTenth(trace);
      assertThat(trace.provenance().understood())
          .anySatisfy(said -> assertThat(said).contains("parts of a second in column 2"));
    }
  }

  @Test
  void dateTimeAndPartsInThreeColumns() throws Exception {
    everyTenth(
        files.read(
            table(
                "date,time,ms,i1_A",
                i ->
                    "14.03.2026,"
                        + clock(i, "HH:mm:ss")
                        + ","
                        + clock(i, "SSS")
                        + ","
                        + (20 + i))));
  }

  @Test
  void aTimeInMillisecondsBesideAClockIsStillTheTime() throws Exception {
    everyTenth(
        files.read(
            table(
                "clock,time (ms),i1_A",
                i -> clock(i, "HH:mm:ss") + "," + Math.round(i * STEP_S * 1000) + "," + (20 + i))));
  }

  @Test
  void aZoneByLettersLeavesTheInstantOpenAndSaysSo() throws Exception {
    Trace trace =
        files.read(
            table("time,i1_A", i -> "2026-03-14 " + clock(i, "HH:mm:ss.SSS") + " CET," + (20 + i)));
    everyTenth(trace);
    assertThat(trace.provenance().startUtc()).isNull();
    assertThat(trace.provenance().warnings())
        .anySatisfy(said -> assertThat(said).contains("\"CET\"", "left open"));
  }

  @Test
  void aClosingRowIsLeftOutAndSaid() throws Exception {
    Trace trace =
        files.read(
            table("time_s,i1_A", i -> String.format(Locale.ROOT, "%.1f,%d", i * STEP_S, 20 + i))
                + "Average,49.5\n");
    everyTenth(trace);
    assertThat(trace.provenance().warnings())
        .anySatisfy(said -> assertThat(said).contains("line " + (ROWS + 2), "\"Average\""));
  }

  @Test
  void aClockThatBeginsAgainIsToBeSplit() {
    assertThat(
            files.message(
                table(
                    "time_s,i1_A",
                    i -> String.format(Locale.ROOT, "%.1f,%d", (i % 30) * STEP_S, 20 + i))))
        .contains("line 32", "time runs back from 2.9 s to 0 s", "split it at this line");
  }
}
