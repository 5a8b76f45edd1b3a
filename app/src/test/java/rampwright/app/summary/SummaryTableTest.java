package rampwright.app.summary;

import static org.assertj.core.api.Assertions.assertThat;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import rampwright.app.asset.SeenByHand;
import rampwright.app.asset.TrialFile;
import rampwright.app.envelope.FigureKey;
import rampwright.app.fixture.MadeUp;
import rampwright.app.result.Batch;
import rampwright.app.result.FailedTrial;
import rampwright.app.result.NotedTrial;
import rampwright.app.result.TraceFacts;
import rampwright.app.result.TrialResult;

class SummaryTableTest {
  private static List<NamedCsvRecord> rows(Batch batch) {
    return CsvReader.builder().ofNamedCsvRecord(SummaryTable.csv(batch)).stream().toList();
  }

  @Test
  void everyStartEveryNoteAndEveryFailureHasARow() {
    TrialResult two =
        new TrialResult(
            "a, \"b\".csv",
            TraceFacts.of(MadeUp.trace()),
            null,
            TrialFile.NONE,
            MadeUp.figures(
                MadeUp.start(
                    Map.of("start_time_s", 8.0625, "i2t_ratio_s", Double.NaN),
                    Map.of("stop_time_s", 7.5)),
                MadeUp.start(Map.of("start_time_s", 1e-7), null)),
            List.of(),
            "1",
            List.of());
    SeenByHand seen = new SeenByHand(Map.of(FigureKey.START_TIME, 11.5), "completed", null, null);
    List<NamedCsvRecord> rows =
        rows(
            new Batch(
                List.of(
                    two,
                    new NotedTrial("s.toml", null, TrialFile.NONE, seen, null),
                    new FailedTrial("bad.csv", "line 1: empty\nline 2: odd")),
                false));
    assertThat(rows).hasSize(4);
    assertThat(rows.get(0).getField("file")).isEqualTo("a, \"b\".csv");
    assertThat(rows.get(0).getField("start")).isEqualTo("1");
    assertThat(Double.parseDouble(rows.get(0).getField("start_time_s"))).isEqualTo(8.0625);
    assertThat(rows.get(0).getField("i2t_ratio_s")).as("missing is empty, not 0").isEmpty();
    assertThat(rows.get(0).getField("stop")).isEqualTo("soft");
    assertThat(rows.get(0).getField("findings")).isEqualTo("late-breakaway");
    assertThat(Double.parseDouble(rows.get(1).getField("start_time_s"))).isEqualTo(1e-7);
    assertThat(rows.get(2).getField("source")).isEqualTo("noted by hand");
    assertThat(rows.get(3).getField("error")).isEqualTo("line 1: empty; line 2: odd");
  }

  @Test
  void aTraceWithoutAStartHasARowToo() {
    TrialResult none =
        new TrialResult(
            "a.csv",
            TraceFacts.of(MadeUp.trace()),
            null,
            TrialFile.NONE,
            MadeUp.figures(),
            List.of(),
            "1",
            List.of());
    List<NamedCsvRecord> rows = rows(new Batch(List.of(none), true));
    assertThat(rows).hasSize(1);
    assertThat(rows.get(0).getField("outcome")).isEmpty();
  }

  @Test
  void anEmptyBatchIsAHeader() {
    assertThat(SummaryTable.csv(new Batch(List.of(), false)))
        .startsWith("file,asset,source,start,")
        .endsWith("findings,error\n");
  }
}
