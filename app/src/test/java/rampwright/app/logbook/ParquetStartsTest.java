package rampwright.app.logbook;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;
import static rampwright.app.logbook.Starts.NOON;
import static rampwright.app.logbook.Starts.entry;
import static rampwright.app.logbook.Starts.row;

import blue.strategic.parquet.Hydrator;
import blue.strategic.parquet.ParquetReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ParquetStartsTest {
  @TempDir private Path folder;

  private Path exported(int starts) throws Exception {
    Path file = folder.resolve("starts.parquet");
    try (Logbook logbook =
        Logbook.open(folder.resolve("l.db").toString(), name -> null, () -> Instant.EPOCH)) {
      List<LogEntry> entries = new ArrayList<>();
      for (int i = 0; i < starts; i++) {
        entries.add(entry(NOON.plusMillis(60_001L * i), 8 + i / 1024.0));
      }
      entries.add(row(NOON.minusSeconds(60), 7.25));
      logbook.append(entries);
      logbook.append(List.of(entry(NOON, 9.5)));
      logbook.exportParquet(file);
    }
    return file;
  }

  @Test
  void whatIsWrittenIsReadAgain() throws Exception {
    List<Map<String, Object>> rows = new ArrayList<>();
    Hydrator<Map<String, Object>, Map<String, Object>, String[]> hydrator =
        new Hydrator<>() {
          @Override
          public Map<String, Object> start() {
            return new HashMap<>();
          }

          @Override
          public Map<String, Object> add(Map<String, Object> row, String[] name, Object value) {
            row.put(String.join(".", name), value);
            return row;
          }

          @Override
          public Map<String, Object> finish(Map<String, Object> row) {
            return row;
          }
        };
    try (Stream<Map<String, Object>> read =
        ParquetReader.streamContent(exported(20).toFile(), hydrator)) {
      read.forEach(rows::add);
    }
    assertThat(rows).hasSize(21);
    assertThat(rows.get(0))
        .containsEntry("asset", "P-1")
        .containsEntry("at", NOON.minusSeconds(60).toEpochMilli())
        .containsEntry("start_time_s", 7.25)
        .containsEntry("definitions", "");
    assertThat(rows.get(0).get("start_time_s_uncertainty")).as("not told").isNull();
    assertThat(rows.get(1))
        .as("the correction is in force")
        .containsEntry("start_time_s", 9.5)
        .containsEntry("start_time_s_uncertainty", 0.02)
        .containsEntry("representative", true)
        .containsEntry("definitions", "1");
    assertThat(rows.get(20)).containsEntry("start_time_s", 8 + 19 / 1024.0);
  }

  /** A reader that shares no code with the writer, where the machine has it. */
  @Test
  void anotherProgramReadsTheSame() throws Exception {
    assumeTrue(
        python("import pyarrow.parquet").startsWith("ok"), "Python has no pyarrow on this machine");
    Path file = exported(3000);
    assertThat(
            python(
                "import pyarrow.parquet as p; t = p.read_table(r'"
                    + file
                    + "'); r = t.to_pylist();"
                    + " print(t.num_rows, t.schema.field('at').type, r[0]['at'].isoformat(),"
                    + " sum(x['start_time_s'] for x in r), r[0]['start_time_s_uncertainty'])"))
        .isEqualTo(
            "3001 timestamp[ms, tz=UTC] 2024-05-06T11:59:00+00:00 "
                + (7.25 + 9.5 + 2999 * 8 + 2999 * 3000 / 2 / 1024.0)
                + " None\nok");
  }

  private static String python(String code) throws Exception {
    try {
      Process process =
          new ProcessBuilder("python3", "-c", code + "; print('ok')")
              .redirectErrorStream(true)
              .start();
      String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      process.waitFor();
      return said.strip();
    } catch (IOException e) {
      return "";
    }
  }
}
