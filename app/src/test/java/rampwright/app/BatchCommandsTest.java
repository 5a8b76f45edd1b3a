package rampwright.app;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.app.asset.Examples;
import rampwright.app.fixture.Workshop;
import rampwright.app.json.ResultSchemaValidator;

/** Many files in one run, with the program's own readers. */
class BatchCommandsTest {
  @TempDir private Path folder;
  private Path good = Path.of("");
  private Path hot = Path.of("");
  private Path bad = Path.of("");

  @BeforeEach
  void layOut() throws IOException {
    // Limits of the example: peak at most 3.5 of 160 A, start time 4 to 12 s; no limit of a stop.
    String text =
        Examples.assetWith("stop_time_s = { min = 6.0, max = 20.0 }", "")
            .replaceAll("(?s)\\[\\[envelope.corridor]].*", "");
    new Workshop(folder).asset("pump", text);
    good = start("good.csv", 480, true);
    hot = start("hot.csv", 640, true);
    bad = Files.writeString(folder.resolve("bad.csv"), "nothing of a trace\n");
  }

  /** A start from 2 s to 10 s, then a run to the record's end. */
  private Path start(String name, double currentA, boolean withSpeed) throws IOException {
    StringBuilder text = new StringBuilder("time_s,i1_A").append(withSpeed ? ",speed_rpm" : "");
    for (int i = 0; i < 500; i++) {
      double t = i / 25.0;
      text.append(
          String.format(Locale.ROOT, "%n%.2f,%.1f", t, t < 2 ? 0 : t < 10 ? currentA : 128));
      if (withSpeed) {
        text.append(
            String.format(Locale.ROOT, ",%.0f", Math.max(0, Math.min(1, (t - 2) / 8)) * 1482));
      }
    }
    return Files.writeString(folder.resolve(name), text.append('\n'));
  }

  private CommandRun.Answer analysed(Object... words) {
    Object[] all = new Object[words.length + 3];
    all[0] = "analyze";
    System.arraycopy(words, 0, all, 1, words.length);
    all[words.length + 1] = "--asset";
    all[words.length + 2] = folder.resolve("pump");
    return CommandRun.run(all);
  }

  @Test
  void oneBadFileDoesNotStopTheRest() {
    CommandRun.Answer answer = analysed(good, bad, hot, folder.resolve("none.csv"), "--json");
    assertThat(answer.exit()).isEqualTo(6);
    assertThat(ResultSchemaValidator.problems(answer.out())).isEmpty();
    JsonNode results = answer.json().path("results");
    assertThat(results).hasSize(4);
    assertThat(results.get(0).path("result").path("starts")).hasSize(1);
    assertThat(results.get(1).path("error").asText()).contains("bad.csv");
    assertThat(results.get(2).path("result").path("starts")).hasSize(1);
    assertThat(results.get(3).path("error").asText()).contains("no such file");
    assertThat(answer.err()).contains("bad.csv", "none.csv");
  }

  @Test
  void theWorstOfABatchIsItsExitCode() throws Exception {
    // Without speed and with a constant current the record does not tell when full speed came.
    Path open = Files.writeString(folder.resolve("open.csv"), "time_s,i1_A\n0,0\n1,0\n2,0\n");
    assertThat(analysed(good).exit()).isZero();
    assertThat(analysed(good, good).exit()).isZero();
    assertThat(analysed(good, open).exit()).isEqualTo(4);
    assertThat(analysed(good, open, hot).exit()).isEqualTo(3);
    assertThat(analysed(good, open, hot, bad).exit()).isEqualTo(6);
  }

  @Test
  void theTableOfAssetsIsNoTraceWhenAPatternNamesItAlong() throws Exception {
    Path table = Files.writeString(folder.resolve("table.csv"), "file,asset\ngood.csv,pump\n");
    CommandRun.Answer answer = CommandRun.run("analyze", good, hot, table, "--assets", table);
    assertThat(answer.exit()).isZero();
    assertThat(answer.out()).contains("2 analysed; envelope met 1");
    CommandRun.Answer csv = CommandRun.run("analyze", good, hot, "--assets", table, "--csv");
    List<String> rows = csv.out().lines().toList();
    assertThat(rows).hasSize(3);
    assertThat(rows.get(1)).contains("BP-2");
    assertThat(rows.get(2)).doesNotContain("BP-2");
  }

  @Test
  void aTargetWithoutItsFolderIsNamedByTheFolder() {
    CommandRun.Answer answer = CommandRun.run("chart", good, "-o", folder.resolve("nowhere/x.png"));
    assertThat(answer.exit()).isEqualTo(6);
    assertThat(answer.err())
        .contains("there is no folder " + folder.resolve("nowhere") + "; make it")
        .doesNotContain(".part");
  }

  @Test
  void twoTracesAreComparedFigureByFigure() {
    CommandRun.Answer answer = CommandRun.run("compare", good, hot, "--json");
    assertThat(answer.exit()).isZero();
    assertThat(ResultSchemaValidator.problems(answer.out())).isEmpty();
    boolean seen = false;
    for (JsonNode row : answer.json().path("differences")) {
      if (row.path("figure").asText().equals("peak_current_A")) {
        seen = true;
        assertThat(row.path("difference").asDouble()).isEqualTo(160);
        assertThat(row.path("difference_pct").asDouble())
            .isCloseTo(100.0 / 3, org.assertj.core.api.Assertions.within(1e-9));
        assertThat(row.path("beyond_uncertainty").asBoolean()).isTrue();
      }
    }
    assertThat(seen).isTrue();
    CommandRun.Answer judged =
        CommandRun.run("compare", good, hot, "--asset", folder.resolve("pump"));
    assertThat(judged.exit()).as("the worse of both").isEqualTo(3);
    assertThat(judged.out()).contains("Verdict on A: MET", "Verdict on B: MISSED");
  }
}
