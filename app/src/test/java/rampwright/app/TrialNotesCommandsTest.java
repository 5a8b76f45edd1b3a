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
import rampwright.app.fixture.Workshop;
import rampwright.app.json.ResultSchemaValidator;

/** What a person notes is kept, shown, and told apart from what was measured. */
class TrialNotesCommandsTest {
  @TempDir private Path folder;
  private Path pump = Path.of("");

  @BeforeEach
  void layOut() throws IOException {
    pump = new Workshop(folder).asset("pump");
    trial("a", "");
  }

  /** A start from 2 s to 10 s with a tachometer, run at 128 A, cut at 20 s. */
  private Path trial(String name, String settings) throws IOException {
    Path trial = Files.createDirectories(pump.resolve("trials").resolve(name));
    StringBuilder text = new StringBuilder("time_s,i1_A,i2_A,i3_A,speed_rpm\n");
    for (int i = 0; i < 750; i++) {
      double t = i / 25.0;
      double currentA = t < 2 || t >= 20 ? 0 : t < 10 ? 480 : 128;
      double rpm =
          t < 2
              ? 0
              : t < 10 ? 1482 * (t - 2) / 8 : t < 20 ? 1482 : Math.max(0, 1482 * (28 - t) / 8);
      text.append(
          String.format(
              Locale.ROOT, "%.2f,%.1f,%.1f,%.1f,%.0f%n", t, currentA, currentA, currentA, rpm));
    }
    Files.writeString(trial.resolve("trace.csv"), text);
    Files.writeString(trial.resolve("settings.toml"), settings);
    return trial;
  }

  private static JsonNode analysed(Path trial) {
    CommandRun.Answer answer = CommandRun.run("analyze", trial, "--json", "--no-keep");
    assertThat(ResultSchemaValidator.problems(answer.out())).as(answer.out()).isEmpty();
    return answer.json();
  }

  @Test
  void aCorrectedInstantMovesItsFiguresAndSaysWhoMovedIt() throws Exception {
    JsonNode asMeasured = analysed(pump.resolve("trials/a")).path("starts").get(0);
    double measuredS = asMeasured.path("instants").path("full_speed_s").asDouble();
    // 95 % of 1482 rpm on a straight line from 2 s to 10 s.
    assertThat(measuredS).isCloseTo(9.6, org.assertj.core.api.Assertions.within(0.05));

    Path trial =
        trial("b", "[trial]\ncorrected = { full_speed_s = 8.0, reason = \"pickup slipped\" }\n");
    JsonNode json = analysed(trial);
    JsonNode start = json.path("starts").get(0);
    assertThat(start.path("instants").path("full_speed_s").asDouble()).isEqualTo(8.0);
    JsonNode how = start.path("instant_details").path("full_speed_s");
    assertThat(how.path("rule").asText()).isEqualTo("corrected by a person: pickup slipped");
    JsonNode time = start.path("figures").path("start_time_s");
    double inceptionS = start.path("instants").path("inception_s").asDouble();
    assertThat(time.path("value").asDouble())
        .isCloseTo(8.0 - inceptionS, org.assertj.core.api.Assertions.within(1e-9));
    assertThat(time.path("rule").asText()).contains("corrected by a person");
    // 480 A in each phase over the shortened window.
    assertThat(start.path("figures").path("i2t_A2s").path("value").asDouble())
        .isCloseTo(
            480.0 * 480 * (8.0 - inceptionS), org.assertj.core.api.Assertions.withinPercentage(1));
    assertThat(json.path("trial").path("corrected").path("full_speed_s").asDouble()).isEqualTo(8);
    assertThat(json.path("trial").path("correction_reason").asText()).isEqualTo("pickup slipped");

    String text = CommandRun.run("analyze", trial, "--how", "--no-keep").out();
    assertThat(text)
        .contains("corrected by a person: full_speed_s = 8.000 (pickup slipped)")
        .contains("corrected by a person: pickup slipped");
  }

  @Test
  void aCorrectionOfWhatIsNoInstantOrWithoutReasonIsRefused() throws Exception {
    Path odd = trial("c", "[trial]\ncorrected = { full_sped_s = 8.0, reason = \"x\" }\n");
    CommandRun.Answer answer = CommandRun.run("analyze", odd);
    assertThat(answer.exit()).isEqualTo(6);
    assertThat(answer.err()).contains("settings.toml line 2", "did you mean full_speed_s?");
    Path bare = trial("d", "[trial]\ncorrected = { full_speed_s = 8.0 }\n");
    assertThat(CommandRun.run("analyze", bare).err()).contains("reason");
    Path silent = trial("e", "[trial]\nrepresentative = false\n");
    assertThat(CommandRun.run("analyze", silent).err()).contains("reason");
  }

  @Test
  void whatIsNotRepresentativeIsShownAndLeftOutOfTheFit() throws Exception {
    String settings =
        """
        control = "torque ramp"
        current_limit_ratio = 3.0
        ramp_up_s = 5.0
        initial_torque_pct = 30
        stop = "coast"
        """;
    Files.writeString(pump.resolve("trials/a/settings.toml"), settings);
    trial("f", settings + "[trial]\nrepresentative = false\nreason = \"valve was shut\"\n");
    CommandRun.Answer batch = CommandRun.run("analyze", pump, "--no-keep");
    assertThat(batch.out()).contains("not representative: valve was shut", "2 analysed");
    String alone = CommandRun.run("analyze", pump.resolve("trials/f"), "--no-keep").out();
    assertThat(alone).contains("NOT REPRESENTATIVE: valve was shut", "start time");
    JsonNode advice = CommandRun.run("advise", pump, "--json").json();
    assertThat(advice.path("trials_used")).hasSize(1);
    assertThat(advice.path("trials_left_out").get(0).asText())
        .contains("marked not representative (valve was shut)");
    CommandRun.Answer csv = CommandRun.run("analyze", pump, "--csv", "--no-keep");
    assertThat(csv.out().lines().findFirst().orElse("")).contains("representative");
    assertThat(csv.out().lines().skip(1))
        .anyMatch(row -> row.contains("/a/trace") && row.contains(",coast,true,"))
        .anyMatch(row -> row.contains("/f/trace") && row.contains(",coast,false,"));
  }

  /** Limits of the example: peak at most 3.5, start time 4 to 12 s. */
  @Test
  void aTrialNotedByHandIsKeptShownAndToldApart() throws Exception {
    Path noted = Files.createDirectories(pump.resolve("trials/z"));
    Files.writeString(
        noted.resolve("settings.toml"),
        """
        current_limit_ratio = 4.0
        [seen]
        outcome = "completed"
        by = "clamp meter and watch"
        note = "belt squealed"
        peak_current_ratio = 4.4
        start_time_s = 11.5
        """);
    CommandRun.Answer answer = CommandRun.run("analyze", pump, "--no-keep");
    assertThat(answer.out())
        .contains("noted by hand, not measured", "missed: peak current / rated", "4.4")
        .contains("1 analysed, 1 noted by hand");
    CommandRun.Answer without = CommandRun.run("analyze", pump.resolve("trials/a"), "--no-keep");
    assertThat(answer.exit()).as("it never counts for an exit code").isEqualTo(without.exit());

    JsonNode entry = null;
    for (JsonNode one :
        CommandRun.run("analyze", pump, "--json", "--no-keep").json().path("results")) {
      entry = one.has("noted") ? one : entry;
    }
    assertThat(entry).isNotNull();
    JsonNode seen = entry.path("noted").path("noted_by_hand");
    assertThat(seen.path("figures").path("peak_current_ratio").path("value").asDouble())
        .isEqualTo(4.4);
    assertThat(seen.path("by").asText()).isEqualTo("clamp meter and watch");
    assertThat(entry.has("result")).as("nothing of it was measured").isFalse();
    List<String> rows =
        CommandRun.run("analyze", pump, "--csv", "--no-keep").out().lines().toList();
    assertThat(rows.stream().filter(row -> row.contains("noted by hand"))).hasSize(1);
    assertThat(rows.stream().filter(row -> row.contains(",measured,"))).hasSize(1);
    JsonNode advice = CommandRun.run("advise", pump, "--json").json();
    assertThat(advice.path("trials_left_out").toString())
        .contains("noted by hand, no trace to fit");
  }

  @Test
  void whatWasNotedBesideATraceStaysApartFromItsFigures() throws Exception {
    Path both = trial("g", "[seen]\npeak_current_ratio = 9.9\nby = \"a guess\"\n");
    JsonNode json = analysed(both);
    JsonNode peak = json.path("starts").get(0).path("figures").path("peak_current_ratio");
    assertThat(peak.path("value").asDouble())
        .isCloseTo(3.0, org.assertj.core.api.Assertions.within(0.01));
    assertThat(
            json.path("noted_by_hand")
                .path("figures")
                .path("peak_current_ratio")
                .path("value")
                .asDouble())
        .isEqualTo(9.9);
    JsonNode limit = json.path("starts").get(0).path("verdict").path("limits").get(0);
    assertThat(limit.path("value").asDouble())
        .as("the measured value is judged")
        .isEqualTo(peak.path("value").asDouble());
    assertThat(CommandRun.run("analyze", both, "--no-keep").out())
        .contains("Noted by hand (a guess), not measured");
  }

  @Test
  void everyResultCarriesToolSettingsAndSha256() throws Exception {
    Path trial = trial("h", "current_limit_ratio = 3.3\n");
    assertThat(CommandRun.run("analyze", trial).exit()).isIn(0, 3, 4);
    String kept = Files.readString(trial.resolve("figures.json"));
    assertThat(ResultSchemaValidator.problems(kept)).isEmpty();
    JsonNode json = analysed(trial);
    assertThat(json.path("tool").path("version").asText()).isEqualTo("9.9.9");
    assertThat(json.path("settings").path("current_limit_ratio").asDouble()).isEqualTo(3.3);
    byte[] digest =
        java.security.MessageDigest.getInstance("SHA-256")
            .digest(Files.readAllBytes(trial.resolve("trace.csv")));
    assertThat(json.path("trace").path("sha256").asText())
        .isEqualTo(java.util.HexFormat.of().formatHex(digest));
    assertThat(kept).contains(java.util.HexFormat.of().formatHex(digest));
  }
}
