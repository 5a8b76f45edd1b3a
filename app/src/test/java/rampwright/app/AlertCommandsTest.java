package rampwright.app;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.app.cli.ExitCode;
import rampwright.app.json.ResultSchemaValidator;
import rampwright.app.trend.LoggedStart;
import rampwright.app.trend.StartsOfYears;

/** Alerts as an unattended machine and a person use them, one run after another. */
class AlertCommandsTest {
  @TempDir private Path folder;
  private CommandRun.Answer last = new CommandRun.Answer(0, "", "");

  private int run(Object... words) {
    last =
        CommandRun.run(
            name -> name.equals("RAMPWRIGHT_LOGBOOK") ? folder.resolve("l.db").toString() : null,
            words);
    return last.exit();
  }

  private int alerts() {
    return run("trend", "--all", "--alerts", folder.resolve("a.jsonl"), "--json");
  }

  private void enter(List<LoggedStart> starts) throws Exception {
    List<String> lines = new ArrayList<>(List.of("asset,time,settings,start_time_s"));
    for (LoggedStart s : starts) {
      lines.add(String.format(Locale.ROOT, "P-1,%s,a,%.4f", s.at(), s.value()));
    }
    Path table = Files.write(folder.resolve("t.csv"), lines);
    assertThat(run("logbook", "import", table)).isZero();
  }

  private List<JsonNode> told() throws Exception {
    List<JsonNode> lines = new ArrayList<>();
    for (String line : Files.readAllLines(folder.resolve("a.jsonl"))) {
      assertThat(ResultSchemaValidator.problems(line)).isEmpty();
      lines.add(new ObjectMapper().readTree(line));
    }
    return lines;
  }

  /** Without season and supply, so that a step is all there is. */
  private static List<LoggedStart> starts(long seed) {
    return new StartsOfYears(seed).scatter(0.02).season(0).step(0.2, 60).make(120);
  }

  @Test
  void anAlertIsRaisedOnceSeenClearedAndRaisedAgain() throws Exception {
    List<LoggedStart> starts = starts(31);
    enter(starts.subList(0, 60));
    assertThat(alerts()).isEqualTo(ExitCode.DONE);
    enter(starts.subList(60, 80));
    assertThat(alerts()).isEqualTo(ExitCode.MISSED);
    assertThat(ResultSchemaValidator.problems(last.out())).isEmpty();
    JsonNode alert = last.json().get("alerts").get(0);
    assertThat(alert.get("subject").asText()).isEqualTo("start_time_s rises");
    assertThat(alert.get("clears_when").asText()).contains("8 further starts", "new baseline");
    assertThat(told()).hasSize(1);
    enter(starts.subList(80, 90));
    assertThat(alerts()).isEqualTo(ExitCode.MISSED);
    assertThat(told()).as("once").hasSize(1);

    assertThat(run("logbook", "note", "P-1", "seen", "bearing ordered")).isEqualTo(ExitCode.USAGE);
    assertThat(last.err()).contains("--by");
    assertThat(run("logbook", "note", "P-1", "seen", "bearing ordered", "--by", "A. N.")).isZero();
    assertThat(alerts()).as("seen").isEqualTo(ExitCode.DONE);
    JsonNode seen = last.json().get("alerts").get(0).get("seen").get(0);
    assertThat(seen.get("by").asText()).isEqualTo("A. N.");
    assertThat(seen.get("note").asText()).isEqualTo("bearing ordered");

    Instant work = Instant.parse("2026-03-14T10:00:00Z");
    assertThat(run("logbook", "note", "P-1", "work", "bearing changed", "--at", work)).isZero();
    List<LoggedStart> after = new ArrayList<>();
    for (int i = 0; i < 40; i++) {
      double value = (i < 20 ? 1 : 1.2) * starts.get(i).value();
      after.add(new LoggedStart(work.plusSeconds(90_000L * (i + 1)), "a", value, Double.NaN, true));
    }
    enter(after.subList(0, 20));
    assertThat(alerts()).isEqualTo(ExitCode.DONE);
    assertThat(last.json().get("alerts")).isEmpty();
    assertThat(told())
        .extracting(line -> line.get("act").asText())
        .containsExactly("raised", "cleared");
    enter(after);
    assertThat(alerts()).isEqualTo(ExitCode.MISSED);
    assertThat(last.json().get("alerts").get(0).get("episode").asInt()).isEqualTo(2);
    assertThat(told()).hasSize(3);
    assertThat(run("logbook", "verify")).isZero();
  }

  /** Told of only after the alert, the work explains the step all the same. */
  @Test
  void workThatIsNotedLateClearsWhatItExplains() throws Exception {
    List<LoggedStart> starts = starts(31);
    enter(starts);
    assertThat(alerts()).isEqualTo(ExitCode.MISSED);
    Instant work = starts.get(60).at().minusSeconds(60);
    assertThat(run("logbook", "note", "P-1", "work", "new impeller", "--at", work)).isZero();
    assertThat(alerts()).isEqualTo(ExitCode.DONE);
    assertThat(told())
        .extracting(line -> line.get("act").asText())
        .containsExactly("raised", "cleared");
  }

  @Test
  void aLimitThatIsExceededIsSaidAndRaised() throws Exception {
    enter(new StartsOfYears(32).scatter(0.02).season(0).make(60));
    Object[] limited = {
      "trend", "P-1", "--limit", "start_time_s=9", "--alerts", folder.resolve("a.jsonl")
    };
    assertThat(run(limited)).isEqualTo(ExitCode.MISSED);
    assertThat(last.out()).contains("above 9 since");
    assertThat(run("trend", "--all", "--limit", "start_time_s=9")).isZero();
    assertThat(last.out()).contains("limit: above 9 since");
    assertThat(run("trend", "P-1", "--limit", "start_time_s=9", "--json")).isZero();
    JsonNode limit = last.json().get("assets").get(0).get("figures").get(0).get("limit");
    assertThat(limit.get("beyond").asBoolean()).isTrue();
    assertThat(limit.get("lately_beyond").asInt()).isEqualTo(10);
  }

  @Test
  void anAlertOfALimitThatIsNotGivenAgainStands() throws Exception {
    enter(new StartsOfYears(8).scatter(0.02).season(0).make(40));
    String limit = "start_time_s=9";
    Object[] words = {"trend", "--all", "--alerts", folder.resolve("a.jsonl"), "--limit", limit};
    assertThat(run(words)).isEqualTo(ExitCode.MISSED);
    assertThat(last.out()).contains("start_time_s", "1 stands");
    assertThat(alerts()).as("nothing is known of the limit now").isEqualTo(ExitCode.MISSED);
    words[words.length - 1] = "start_time_s=20";
    assertThat(run(words)).as("a limit it keeps clears it").isEqualTo(ExitCode.DONE);
    assertThat(last.out()).contains("1 cleared");
  }

  @Test
  void fewStartsBeyondALimitAreSaidThoughNothingElseCanBe() throws Exception {
    enter(new StartsOfYears(33).make(5));
    assertThat(run("trend", "P-1", "--limit", "start_time_s=2", "--json")).isZero();
    JsonNode figure = last.json().get("assets").get(0).get("figures").get(0);
    assertThat(figure.get("state").asText()).isEqualTo("cannot tell");
    assertThat(figure.get("limit").get("lately_beyond").asInt()).isEqualTo(5);
    assertThat(figure.get("limit").get("now").isNull()).isTrue();
  }

  @Test
  void anAlertThatCouldNotBeToldIsToldAtTheNextRun() throws Exception {
    enter(starts(34));
    Path late = folder.resolve("not/yet/a.jsonl");
    assertThat(run("trend", "--all", "--alerts", late)).isEqualTo(ExitCode.DATA);
    assertThat(last.err()).contains("could not be written");
    Files.createDirectories(late.getParent());
    Files.writeString(late, "half a li");
    assertThat(run("trend", "--all", "--alerts", late)).isEqualTo(ExitCode.MISSED);
    List<String> lines = Files.readAllLines(late);
    assertThat(lines).hasSize(2);
    assertThat(lines.get(1)).contains("\"raised\"");
  }

  @Test
  void namesGroupsAndZonesAreShownAndTheirHistoryKept() throws Exception {
    enter(starts(35));
    run("logbook", "note", "P-1", "name", "Old pump");
    run("logbook", "note", "P-1", "name", "Circulation pump \u001b[31m");
    run("logbook", "note", "P-1", "group", "cooling");
    assertThat(run("logbook", "note", "P-1", "zone", "Nowhere/Town")).isEqualTo(ExitCode.USAGE);
    assertThat(run("logbook", "note", "P-1", "zone", "+05:45")).isZero();
    assertThat(run("trend", "--all")).isZero();
    assertThat(last.out()).contains("Circulation", "\\x1b[31m", "cooling").doesNotContain("\u001b");
    assertThat(run("trend", "P-1")).isZero();
    assertThat(last.out()).contains("days in +05:45");
    assertThat(run("trend", "P-1", "--zone", "Mars")).isEqualTo(ExitCode.USAGE);
    assertThat(run("trend", "P-1", "--zone", "UTC", "--json")).isZero();
    JsonNode asset = last.json().get("assets").get(0);
    assertThat(ResultSchemaValidator.problems(last.out())).isEmpty();
    assertThat(asset.get("zone").asText()).isEqualTo("UTC");
    assertThat(asset.get("group").asText()).isEqualTo("cooling");
  }

  @Test
  void whatCannotBeIsSaid() {
    assertThat(run("trend", "--all", "--webhook", "https://plant.example/"))
        .isEqualTo(ExitCode.USAGE);
    Path file = folder.resolve("a.jsonl");
    assertThat(run("trend", "--all", "--alerts", file, "--webhook", "http://plant.example/k/123"))
        .isEqualTo(ExitCode.USAGE);
    assertThat(last.err()).contains("--plain-http").doesNotContain("123");
    assertThat(run("trend", "--all", "--alerts", file, "--within", "0")).isEqualTo(ExitCode.USAGE);
  }
}
