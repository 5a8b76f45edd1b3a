package rampwright.app;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.app.cli.ExitCode;
import rampwright.app.json.ResultSchemaValidator;
import rampwright.app.trend.LoggedStart;
import rampwright.app.trend.StartsOfYears;

/** The logbook and the trend as a person uses them. */
class LogbookCommandsTest {
  @TempDir private Path folder;
  private String out = "";
  private String err = "";

  private int run(Object... words) {
    CommandRun.Answer answer =
        CommandRun.run(
            name -> name.equals("RAMPWRIGHT_LOGBOOK") ? folder.resolve("l.db").toString() : null,
            words);
    out = answer.out();
    err = answer.err();
    return answer.exit();
  }

  private Path table(String name, List<LoggedStart> starts) throws Exception {
    List<String> lines =
        new ArrayList<>(List.of("asset,time,settings,start_time_s,voltage_before_V"));
    for (LoggedStart s : starts) {
      lines.add(
          String.format(
              Locale.ROOT,
              "%s,%s,%s,%.4f,%.2f",
              name,
              s.at(),
              s.settings(),
              s.value(),
              s.voltageBeforeV()));
    }
    return Files.write(folder.resolve(name + ".csv"), lines);
  }

  private JsonNode json() throws Exception {
    JsonNode tree = new ObjectMapper().readTree(out);
    if (!tree.has("assets")) {
      assertThat(ResultSchemaValidator.problems(out)).isEmpty();
    }
    return tree;
  }

  @Test
  void aTableOfStartsBecomesATrend() throws Exception {
    Path drifting = table("D-1", new StartsOfYears(21).drift(0.12, 0).make(300));
    Path steady = table("S-1", new StartsOfYears(22).make(300));
    assertThat(run("logbook", "import", drifting, steady)).isEqualTo(ExitCode.DONE);
    assertThat(out).contains("600 entered");
    assertThat(run("logbook", "import", drifting, steady, "--json")).isEqualTo(ExitCode.DONE);
    assertThat(json().get("added").asInt()).isZero();
    assertThat(json().get("known").asInt()).isEqualTo(600);
    assertThat(
            run(
                "trend",
                "--all",
                "--json",
                "--figure",
                "start_time_s",
                "--limit",
                "start_time_s=15"))
        .isEqualTo(ExitCode.DONE);
    JsonNode assets = json().get("assets");
    assertThat(assets).hasSize(2);
    JsonNode drift = assets.get(0).get("figures").get(0);
    assertThat(drift.get("state").asText()).isEqualTo("drift");
    assertThat(drift.get("n").asInt()).isEqualTo(300);
    assertThat(drift.get("limit").get("value").asDouble()).isEqualTo(15);
    assertThat(Instant.parse(drift.get("limit").get("reached").get("low").asText()))
        .isBefore(Instant.parse(drift.get("limit").get("reached").get("date").asText()));
    assertThat(assets.get(1).get("figures").get(0).get("state").asText()).isEqualTo("steady");
    assertThat(assets.get(1).get("figures").get(0).get("limit").get("reached").isNull()).isTrue();
  }

  @Test
  void whatIsExportedIsKnownWhenImportedAgain() throws Exception {
    run("logbook", "import", table("S-1", new StartsOfYears(23).make(40)));
    Path back = folder.resolve("back.csv");
    assertThat(run("logbook", "export", "-o", back)).isEqualTo(ExitCode.DONE);
    assertThat(run("logbook", "import", back, "--json")).isEqualTo(ExitCode.DONE);
    assertThat(json().get("known").asInt()).isEqualTo(40);
  }

  @Test
  void theNewestAreListedAndTheirHistoryToo() throws Exception {
    run("logbook", "import", table("S-1", new StartsOfYears(23).make(40)));
    assertThat(run("logbook", "list", "S-1", "--newest", "3", "--json")).isEqualTo(ExitCode.DONE);
    JsonNode newest = json().get("entries");
    assertThat(newest).hasSize(3);
    String at = newest.get(0).get("at").asText();
    Path table = folder.resolve("t.csv");
    Files.writeString(table, "asset,time,settings,start_time_s\nS-1," + at + ",as set,7.5\n");
    run("logbook", "import", table);
    assertThat(run("logbook", "list", "S-1", "--newest", "1", "--history", "--json"))
        .isEqualTo(ExitCode.DONE);
    JsonNode history = json().get("entries");
    assertThat(history).hasSize(2);
    assertThat(history.get(0).get("replaces").asLong())
        .isEqualTo(history.get(1).get("number").asLong());
    assertThat(history.get(0).get("figures").get("start_time_s").get("value").asDouble())
        .isEqualTo(7.5);
    assertThat(run("logbook", "list", "S-1", "--newest", "1", "--history"))
        .isEqualTo(ExitCode.DONE);
    assertThat(out).contains("in force", "replaced", "start time 7.5 s", "corrects");
    assertThat(out.lines()).allMatch(line -> line.length() <= 100);
    assertThat(run("logbook", "list", "X")).isEqualTo(ExitCode.USAGE);
    assertThat(run("logbook", "list", "S-1", "--newest", "0")).isEqualTo(ExitCode.USAGE);
  }

  @Test
  void anExportNamedParquetIsParquet() throws Exception {
    run("logbook", "import", table("S-1", new StartsOfYears(23).make(40)));
    Path file = folder.resolve("starts.parquet");
    assertThat(run("logbook", "export", "-o", file, "--json")).isEqualTo(ExitCode.DONE);
    byte[] bytes = Files.readAllBytes(file);
    assertThat(new String(bytes, 0, 4, StandardCharsets.US_ASCII)).isEqualTo("PAR1");
    assertThat(run("logbook", "export", "-o", folder.resolve("no/such/starts.parquet")))
        .isEqualTo(ExitCode.DATA);
    assertThat(err).contains("no/such");
  }

  @Test
  void figuresAreTakenAgainFromTheLogbookAlone() throws Exception {
    run("demo", "--into", folder.resolve("demo"));
    run("logbook", "import", folder.resolve("demo"));
    assertThat(run("logbook", "reanalyze", "--json")).isEqualTo(ExitCode.DONE);
    assertThat(json().get("trials").asInt()).as("nothing has changed since").isZero();
    run("trend", "--all", "--json");
    String asset = new ObjectMapper().readTree(out).get("assets").get(0).get("asset").asText();
    run("logbook", "list", asset, "--json");
    for (JsonNode entry : json().get("entries")) {
      assertThat(entry.get("definitions").asText()).isNotEmpty();
    }
  }

  @Test
  void wrongRowsAreNamedAndTheOthersKept() throws Exception {
    Path table = folder.resolve("t.csv");
    Files.writeString(
        table,
        """
        asset,time,settings,start_time_s,colour
        P-1,2024-01-01T00:00:00Z,a,8.1,red
        P-1,yesterday,a,8.1,red
        P-1,2024-01-03T00:00:00Z,a,eight,red
        ,2024-01-04T00:00:00Z,a,8.2,red
        P-1,2024-01-05 06:00:00,a,,red
        """);
    assertThat(run("logbook", "import", table)).isEqualTo(ExitCode.DATA);
    assertThat(out).contains("2 entered");
    assertThat(err)
        .contains("line 3: column time: 'yesterday'")
        .contains("line 4: column start_time_s: 'eight'")
        .contains("line 5: column asset is empty")
        .contains("left out, no figure keys: colour");
  }

  @Test
  void anAssetFolderIsEnteredWithItsLimits() throws Exception {
    assertThat(run("demo", "--into", folder.resolve("demo"))).isEqualTo(ExitCode.DONE);
    int exit = run("logbook", "import", folder.resolve("demo"), "--json");
    assertThat(json().get("added").asInt()).as(out + err).isGreaterThan(10);
    assertThat(exit).as(err).isEqualTo(ExitCode.DONE);
    assertThat(run("logbook", "verify", "--json")).isEqualTo(ExitCode.DONE);
    assertThat(json().get("files").asInt()).isGreaterThan(10);
    assertThat(run("trend", "--all", "--json")).isEqualTo(ExitCode.DONE);
    boolean limited = false;
    for (JsonNode asset : json().get("assets")) {
      for (JsonNode figure : asset.get("figures")) {
        limited |= !figure.get("limit").isNull();
        assertThat(figure.get("state").asText()).isEqualTo("cannot tell");
      }
    }
    assertThat(limited).isTrue();
  }

  /** A limit is taken back where it was set: in the envelope. */
  @Test
  void aLimitThatLeavesTheEnvelopeHoldsNoLonger() throws Exception {
    assertThat(run("demo", "--into", folder.resolve("demo"))).isEqualTo(ExitCode.DONE);
    run("logbook", "import", folder.resolve("demo"));
    assertThat(limits()).isGreaterThan(3);
    try (Stream<Path> files = Files.walk(folder.resolve("demo"))) {
      for (Path file : files.filter(f -> f.endsWith("asset.toml")).toList()) {
        String text = Files.readString(file);
        Files.writeString(file, text.replaceAll("(?m)^start_time_s *=.*$", ""));
      }
    }
    int before = limits();
    assertThat(run("logbook", "import", folder.resolve("demo"))).as(err).isEqualTo(ExitCode.DONE);
    assertThat(limits()).as("others stay").isLessThan(before).isPositive();
  }

  private int limits() throws Exception {
    run("trend", "--all", "--json");
    int limits = 0;
    for (JsonNode asset : json().get("assets")) {
      for (JsonNode figure : asset.get("figures")) {
        limits += figure.get("limit").isNull() ? 0 : 1;
      }
    }
    return limits;
  }

  @Test
  void workOnTheMachineIsNotedAndBeginsANewBaseline() throws Exception {
    List<LoggedStart> starts = new StartsOfYears(24).step(-0.15, 60).make(100);
    run("logbook", "import", table("B-1", starts));
    run("trend", "B-1", "--json", "--figure", "start_time_s");
    assertThat(json().get("assets").get(0).get("figures").get(0).get("state").asText())
        .isEqualTo("step");
    Instant before = starts.get(60).at().minusSeconds(60);
    assertThat(run("logbook", "note", "B-1", "work", "bearing changed", "--at", before))
        .isEqualTo(ExitCode.DONE);
    run("trend", "B-1", "--json", "--figure", "start_time_s");
    assertThat(json().get("assets").get(0).get("figures").get(0).get("state").asText())
        .isEqualTo("steady");
  }

  @Test
  void whatCannotBeIsSaid() throws Exception {
    assertThat(run("trend", "X-9")).isEqualTo(ExitCode.USAGE);
    assertThat(err).contains("X-9", "no starts");
    assertThat(run("logbook")).isEqualTo(ExitCode.USAGE);
    assertThat(run("logbook", "import", folder.resolve("nothing.csv"))).isEqualTo(ExitCode.DATA);
    assertThat(err).contains("no such file");
    assertThat(run("trend", "--all")).isEqualTo(ExitCode.DONE);
    assertThat(out).contains("no starts yet");
    assertThat(run("trend", "--figure", "start_tim_s")).isEqualTo(ExitCode.USAGE);
  }
}
