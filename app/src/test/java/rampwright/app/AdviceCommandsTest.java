package rampwright.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import rampwright.app.asset.Examples;
import rampwright.app.fixture.Workshop;
import rampwright.app.json.ResultSchemaValidator;

/** Advice and predictions as a person and a machine get them: words, JSON, exit codes. */
class AdviceCommandsTest {
  private static final Map<String, CommandRun.Answer> ANSWERS = new HashMap<>();

  @TempDir private Path folder;

  private static Path sample(String name) {
    Path samples = Path.of("..", "sample-traces");
    assumeTrue(Files.isDirectory(samples), "sample-traces is not beside the modules");
    return samples.resolve(name);
  }

  /** A search takes seconds; one answer serves several tests. */
  private static CommandRun.Answer advised(String name) {
    return ANSWERS.computeIfAbsent(name, n -> CommandRun.run("advise", sample(n), "--json"));
  }

  private static List<String> names(JsonNode object) {
    List<String> names = new ArrayList<>();
    object.fieldNames().forEachRemaining(names::add);
    return names;
  }

  @ParameterizedTest
  @ValueSource(strings = {"brine-pump", "drying-fan", "weed-conveyor"})
  void adviceIsValidAndKeepsItsRules(String name) {
    CommandRun.Answer answer = advised(name);
    JsonNode json = answer.json();
    assertThat(ResultSchemaValidator.problems(answer.out())).as(answer.out()).isEmpty();
    String status = json.path("status").asText();
    assertThat(answer.exit()).isEqualTo(status.equals("cannot meet") ? 3 : 0);
    if (status.equals("keep")) {
      assertThat(json.path("changes")).isEmpty();
    } else {
      assertThat(json.path("changes")).isNotEmpty();
    }
    for (JsonNode change : json.path("changes")) {
      JsonNode to = json.path("settings").path(change.path("setting").asText());
      assertThat(change.path("to")).as("%s", change).isEqualTo(to);
      assertThat(change.path("from")).as("%s", change).isNotEqualTo(to);
    }
    for (JsonNode range : json.path("predicted")) {
      assertThat(range.path("low").asDouble())
          .as("%s", json.path("predicted"))
          .isNotNegative()
          .isLessThanOrEqualTo(range.path("median").asDouble());
      assertThat(range.path("high").asDouble())
          .isGreaterThanOrEqualTo(range.path("median").asDouble());
    }
    assertThat(json.path("chance_all_met").asDouble()).isBetween(0.0, 1.0);
    assertThat(json.path("model").path("basis").asText()).isEqualTo("fitted");
  }

  /** Its sheet has the pipe and the flow's velocity: what is advised stops the water too. */
  @Test
  void surgeIsToldOfAPumpWithAPipe() {
    JsonNode predicted = advised("brine-pump").json().path("predicted");
    assertThat(names(predicted)).contains("pressure_peak_bar", "pipe_periods");
    assertThat(predicted.path("pressure_peak_bar").path("median").asDouble()).isPositive();
  }

  /** The pump's fourth and fifth trial met every limit with the same settings. */
  @Test
  void whatMetEveryLimitIsKept() {
    JsonNode json = advised("brine-pump").json();
    assertThat(json.path("status").asText()).isEqualTo("keep");
    assertThat(json.path("settings").path("ramp_down_s").asDouble()).isEqualTo(13);
    assertThat(json.path("trials_used")).hasSize(4);
    assertThat(json.path("trials_left_out").get(0).asText())
        .contains("20260309T094000Z", "not representative", "suction valve");
    // The two trials with these settings: start time 3.386 and 3.758 s, peak 2.36 and 2.38 x In.
    JsonNode start = json.path("predicted").path("start_time_s");
    assertThat(start.path("low").asDouble()).isLessThan(3.758);
    assertThat(start.path("high").asDouble()).isGreaterThan(3.386);
    assertThat(json.path("predicted").path("peak_current_ratio").path("median").asDouble())
        .isBetween(2.25, 2.5);
  }

  @Test
  void inWordsTheAnswerComesFirstAndCautionsLast() {
    CommandRun.Answer answer = CommandRun.run("advise", sample("brine-pump"));
    assertThat(answer.exit()).isZero();
    List<String> lines = answer.out().lines().toList();
    assertThat(lines.get(0)).isEqualTo("Brine pump: keep");
    assertThat(answer.out())
        .contains("Keep the settings as they are", "Then expect", "at most 2.9", "Chance that")
        .contains("left out: ", "20260309T094000Z")
        .doesNotContain("What stands in the way");
    // The heat account's line and an empty one follow the cautions.
    assertThat(String.join(" ", lines.subList(lines.size() - 5, lines.size())))
        .contains("people clear, guards on", "local codes", "entered by a person");
  }

  /** The fan's trials with limits no start of it can keep together: 2 x In and 5 s. */
  private Path impossible() throws IOException {
    Path fan = folder.resolve("fan");
    for (String trial : List.of("20260316T071500Z", "20260317T071000Z")) {
      Path from = sample("drying-fan").resolve("trials").resolve(trial);
      Path to = Files.createDirectories(fan.resolve("trials").resolve(trial));
      Files.copy(from.resolve("trace.csv"), to.resolve("trace.csv"));
      Files.copy(from.resolve("settings.toml"), to.resolve("settings.toml"));
    }
    String text = Files.readString(sample("drying-fan").resolve("asset.toml"));
    return Files.writeString(
            fan.resolve("asset.toml"),
            text.replaceAll("peak_current_ratio = .*", "peak_current_ratio = { max = 2.0 }")
                .replaceAll("start_time_s = .*", "start_time_s = { max = 5.0 }"))
        .getParent();
  }

  @Test
  void whatCannotBeMetEndsInThreeAndNamesTheFigure() throws Exception {
    CommandRun.Answer answer = CommandRun.run("advise", impossible(), "--json");
    assertThat(ResultSchemaValidator.problems(answer.out())).as(answer.out()).isEmpty();
    assertThat(answer.exit()).isEqualTo(3);
    JsonNode json = answer.json();
    assertThat(json.path("status").asText()).isEqualTo("cannot meet");
    assertThat(json.path("chance_all_met").asDouble()).isLessThan(0.05);
    List<String> figures = new ArrayList<>();
    json.path("binding").forEach(one -> figures.add(one.path("figure").asText()));
    assertThat(figures).containsAnyOf("peak_current_ratio", "start_time_s");
  }

  @Test
  void beforeTheFirstTrialAdviceRestsOnTheNameplate() throws Exception {
    Path pump = new Workshop(folder).asset("new");
    CommandRun.Answer answer = CommandRun.run("advise", pump, "--json");
    assertThat(answer.exit()).isIn(0, 3);
    assertThat(ResultSchemaValidator.problems(answer.out())).as(answer.out()).isEmpty();
    assertThat(answer.json().path("model").path("basis").asText()).isEqualTo("nameplate");
    assertThat(answer.json().path("trials_used")).isEmpty();
  }

  private Path settings(String... lines) throws IOException {
    return Files.writeString(folder.resolve("wanted.toml"), String.join("\n", lines) + "\n");
  }

  private Path wanted(double limit) throws IOException {
    return settings(
        "control = \"torque ramp\"",
        "current_limit_ratio = " + limit,
        "ramp_up_s = 5.0",
        "initial_torque_pct = 20",
        "stop = \"soft\"",
        "ramp_down_s = 13",
        "release_torque_pct = 10");
  }

  @Test
  void aPredictionSaysWhatGivenSettingsWouldDo() throws Exception {
    CommandRun.Answer answer =
        CommandRun.run("predict", sample("brine-pump"), "--settings", wanted(3.5), "--json");
    assertThat(answer.exit()).isZero();
    assertThat(ResultSchemaValidator.problems(answer.out())).as(answer.out()).isEmpty();
    JsonNode asKept = advised("brine-pump").json().path("predicted").path("start_time_s");
    JsonNode start = answer.json().path("predicted").path("start_time_s");
    assertThat(start.path("median").asDouble())
        .as("the settings that are kept: the same model, the same answer")
        .isCloseTo(
            asKept.path("median").asDouble(), org.assertj.core.api.Assertions.withinPercentage(2));
    JsonNode low =
        CommandRun.run("predict", sample("brine-pump"), "--settings", wanted(1.6), "--json")
            .json()
            .path("predicted")
            .path("peak_current_ratio");
    assertThat(low.path("median").asDouble()).as("a limit of 1.6 holds").isBetween(1.4, 1.75);
  }

  /**
   * Share by hand: 6 MVA at 400 V is 0.02667 ohm, X/R 4: 0.00647 and 0.02587 ohm; 60 m of 0.387 and
   * 0.08 ohm/km are 0.02322 and 0.0048 ohm. At power factor 0.35 they drop 0.02650 and 0.01262 V an
   * ampere: 0.677.
   */
  @Test
  void theBusbarBeforeACableDipsLess() throws Exception {
    String sheet = Files.readString(sample("brine-pump").resolve("asset.toml"));
    assertThat(sheet).contains("fault_level_MVA = 6");
    Path asset = Files.createDirectories(folder.resolve("far"));
    Files.writeString(
        asset.resolve("asset.toml"),
        sheet.replaceAll(
            "(fault_level_MVA = .*)",
            "$1\ncable_length_m = 60\ncable_resistance_ohm_per_km = 0.387"));
    CommandRun.Answer answer =
        CommandRun.run("predict", asset, "--settings", wanted(3.5), "--json");
    assertThat(ResultSchemaValidator.problems(answer.out())).as(answer.out()).isEmpty();
    JsonNode busbar = answer.json().path("busbar_dip");
    assertThat(busbar.path("share").asDouble()).isCloseTo(0.677, within(0.001));
    double atStarter =
        answer.json().path("predicted").path("voltage_dip_pct").path("median").asDouble();
    assertThat(busbar.path("pct").path("median").asDouble())
        .isCloseTo(0.677 * atStarter, within(0.01));
    assertThat(CommandRun.run("predict", asset, "--settings", wanted(3.5)).out())
        .containsPattern("the busbar before its cable\\s+sees 68 %");
    assertThat(CommandRun.run("ready", asset, "--settings", wanted(3.5)).out())
        .contains("the busbar before the cable");
  }

  /**
   * The trials' voltages said to be those of the busbar: predictions are of the busbar too, and the
   * starter sees what the cable drops besides. By hand, at the peak of 2.7 times 159 A and power
   * factors of 0.15 to 0.6 (that of the line is the motor's times the voltage ratio): sqrt 3 x 429
   * A x (0.02322 cos + 0.0048 sin) ohm of 400 V are 1.5 to 3.3 %.
   */
  @Test
  void voltagesOfTheBusbarTellTheStartersDip() throws Exception {
    Path asset = Workshop.copied(sample("brine-pump"), folder.resolve("far"));
    Path sheet = asset.resolve("asset.toml");
    String given = Files.readString(sheet);
    Files.writeString(
        sheet,
        given.replaceAll(
            "(fault_level_MVA = .*)",
            "$1\ncable_length_m = 60\ncable_resistance_ohm_per_km = 0.387\nmeasured = \"busbar\""));
    CommandRun.Answer answer =
        CommandRun.run("predict", asset, "--settings", wanted(2.7), "--json");
    assertThat(ResultSchemaValidator.problems(answer.out())).as(answer.out()).isEmpty();
    assertThat(answer.json().has("busbar_dip")).isFalse();
    double atBusbar =
        answer.json().path("predicted").path("voltage_dip_pct").path("median").asDouble();
    JsonNode starter = answer.json().path("starter_dip");
    double atStarter = starter.path("pct").path("median").asDouble();
    assertThat(atStarter - atBusbar).isBetween(1.5, 3.3);
    assertThat(starter.path("share").asDouble()).isCloseTo(atBusbar / atStarter, within(1e-3));
    JsonNode without =
        CommandRun.run("predict", sample("brine-pump"), "--settings", wanted(2.7), "--json").json();
    // the same voltages were measured, so that the same is predicted of the place they are of
    assertThat(atBusbar)
        .isCloseTo(
            without.path("predicted").path("voltage_dip_pct").path("median").asDouble(),
            org.assertj.core.api.Assertions.withinPercentage(6));
    assertThat(CommandRun.run("predict", asset, "--settings", wanted(2.7)).out())
        .containsPattern("dip\\s+is\\s+that\\s+of\\s+the\\s+busbar");
    assertThat(CommandRun.run("ready", asset, "--settings", wanted(2.7)).out())
        .containsPattern("the\\s+starter\\s+behind\\s+the\\s+cable\\s+sees");
    Path page = folder.resolve("record.html");
    CommandRun.run("report", asset, "-o", page);
    assertThat(Files.readString(page))
        .contains(
            "the starter behind the cable sees",
            "voltages were taken",
            "from the busbar (where the fault level");
  }

  @Test
  void aPredictionInWordsAndAsAPicture() throws Exception {
    Path png = folder.resolve("wanted.png");
    CommandRun.Answer answer =
        CommandRun.run(
            "predict",
            sample("brine-pump"),
            "--settings",
            wanted(3.5),
            "--chart",
            png,
            "--size",
            "1000x640");
    assertThat(answer.exit()).as(answer.err()).isZero();
    assertThat(answer.out())
        .contains("what these settings would do", "Then expect", "chart: " + png)
        .doesNotContain("Keep the settings");
    BufferedImage picture = ImageIO.read(png.toFile());
    assertThat(picture.getWidth()).isEqualTo(1000);
    assertThat(picture.getHeight()).isEqualTo(640);
  }

  @Test
  void whatCannotBeAdvisedOnIsBadUsageOrABadFile() throws Exception {
    assertThat(CommandRun.run("advise", folder).exit()).isEqualTo(2);
    assertThat(CommandRun.run("advise", folder).err()).contains("is no asset folder");
    String bare = Examples.ASSET.substring(0, Examples.ASSET.indexOf("[envelope]"));
    Path asset = new Workshop(folder).asset("bare", bare);
    CommandRun.Answer noEnvelope = CommandRun.run("advise", asset, "--json");
    assertThat(noEnvelope.exit()).isEqualTo(2);
    assertThat(noEnvelope.err()).contains("has no [envelope] to advise on");
    assertThat(ResultSchemaValidator.problems(noEnvelope.out())).isEmpty();
    Path pump = new Workshop(folder).asset("pump");
    assertThat(CommandRun.run("predict", pump).exit()).isEqualTo(2);
    assertThat(CommandRun.run("predict", pump, "--settings", folder.resolve("no.toml")).exit())
        .isEqualTo(6);
    CommandRun.Answer little =
        CommandRun.run("predict", pump, "--settings", settings("ramp_up_s = 5"));
    assertThat(little.exit()).isEqualTo(2);
    assertThat(little.err()).contains("too little to predict from");
    CommandRun.Answer broken =
        CommandRun.run("predict", pump, "--settings", settings("ramp_up_s = 1e9"));
    assertThat(broken.exit()).isEqualTo(6);
    assertThat(broken.err()).contains("wanted.toml line 1");
  }
}
