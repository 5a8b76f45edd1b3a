package rampwright.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.app.fixture.Commissioned;
import rampwright.app.fixture.Workshop;
import rampwright.app.json.ResultSchemaValidator;

/** The commissioning record of whole and of broken folders. */
class ReportCommandsTest {
  @TempDir private Path folder;
  private Path pump = Path.of("");

  @BeforeEach
  void layOut() throws IOException {
    pump = Commissioned.pump(folder);
  }

  private JsonNode json(int exit) {
    CommandRun.Answer answer = CommandRun.run("report", pump, "--json");
    assertThat(ResultSchemaValidator.problems(answer.out())).as(answer.out()).isEmpty();
    assertThat(answer.exit()).as(answer.out()).isEqualTo(exit);
    return answer.json();
  }

  private String page(int exit) throws IOException {
    CommandRun.Answer answer = CommandRun.run("report", pump);
    assertThat(answer.exit()).as(answer.out() + answer.err()).isEqualTo(exit);
    return Files.readString(pump.resolve("record.html"));
  }

  @Test
  void theRecordHoldsWhatTheFolderHolds() throws IOException {
    CommandRun.run("ready", pump, "--tick", 2, "--by", "B. Wirer", "--note", "two of us");
    String page = page(ExitCodes.DONE);
    assertThat(page)
        .contains("Booster pump 2", "north hall", "Trial " + Commissioned.GOOD)
        .contains("meets everything the envelope asks", "not signed")
        .contains("1482 rpm", "AC-53b: 3.5-30:330", "12 MVA")
        .contains("1 of 20 checks ticked, 19 OPEN", "B. Wirer", "two of us")
        .contains("Electricity and moving machines kill")
        .contains("current limit", "3.5 x rated current of the motor")
        .contains("SHA-256, trace.csv", "how it was found");
    JsonNode record = json(ExitCodes.DONE);
    assertThat(record.path("standing").path("state").asText()).isEqualTo("accepted");
    assertThat(record.path("final_settings").path("ramp_up_s").asDouble()).isEqualTo(8);
    JsonNode figures =
        record.at("/trials/0/entry/result/starts/0/figures/peak_current_ratio/value");
    assertThat(figures.asDouble()).isCloseTo(3, within(0.05));
  }

  @Test
  void whatIsNotGivenIsSaidToBe() throws IOException {
    Commissioned.sheet(pump, "inertia_kgm2 = 2.0\n", "");
    assertThat(page(ExitCodes.DONE)).contains("not given");
    JsonNode rows = json(ExitCodes.DONE).path("sheet");
    boolean found = false;
    for (JsonNode row : rows) {
      found |=
          row.path("section").asText().equals("load")
              && row.path("key").asText().equals("inertia_kgm2")
              && row.path("value").isNull();
    }
    assertThat(found).isTrue();
  }

  @Test
  void theLastTrialThatCountsDecides() throws IOException {
    Commissioned.trial(pump, "20260314T090000Z", 640, "");
    JsonNode missed = json(ExitCodes.MISSED);
    assertThat(missed.path("standing").path("state").asText()).isEqualTo("not accepted");
    assertThat(missed.path("standing").path("sentence").asText()).contains("peak current");
    assertThat(missed.path("final_settings").isNull()).isTrue();
    Commissioned.trial(
        pump,
        "20260314T090000Z",
        640,
        "\n[trial]\nrepresentative = false\nreason = \"valve was shut\"\n");
    JsonNode accepted = json(ExitCodes.DONE);
    assertThat(accepted.path("standing").path("trial").asText()).isEqualTo(Commissioned.GOOD);
    assertThat(accepted.at("/trials/1/counts").asBoolean()).isFalse();
    assertThat(page(ExitCodes.DONE)).contains("Not representative:", "valve was shut");
  }

  @Test
  void whatAPersonNotedIsToldApartFromWhatWasMeasured() throws IOException {
    Path noted = Files.createDirectories(pump.resolve("trials/20260315T090000Z"));
    Files.writeString(
        noted.resolve("settings.toml"),
        "ramp_up_s = 9.0\n[seen]\npeak_current_ratio = 9.5\nby = \"clamp meter\"\n");
    assertThat(page(ExitCodes.DONE))
        .contains("Noted by hand (clamp meter), not measured", "by hand: missed")
        .contains("changed from 8");
    assertThat(json(ExitCodes.DONE).at("/standing/trial").asText()).isEqualTo(Commissioned.GOOD);
  }

  @Test
  void theSumIsWhatSha256sumSays() throws Exception {
    Process process;
    try {
      process =
          new ProcessBuilder(
                  "sh",
                  "-c",
                  "LC_ALL=C sha256sum asset.toml trials/*/settings.toml trials/*/trace.csv"
                      + " | sort -k2 | sha256sum")
              .directory(pump.toFile())
              .start();
    } catch (IOException e) {
      Assumptions.abort("no sh here");
      return;
    }
    String sum = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    Assumptions.assumeTrue(process.waitFor() == 0, "no sha256sum here");
    assertThat(json(ExitCodes.DONE).at("/rests_on/sha256").asText())
        .isEqualTo(sum.substring(0, 64));
  }

  @Test
  void aRecordCanBeMadeOfAFolderWithoutTrials() throws IOException {
    pump = new Workshop(folder).asset("bare");
    JsonNode record = json(ExitCodes.NOT_ASSESSABLE);
    assertThat(record.path("standing").path("sentence").asText()).contains("no trial");
    assertThat(page(ExitCodes.NOT_ASSESSABLE)).contains("No trial was made yet");
  }

  @Test
  void aTraceThatCannotBeReadIsInTheRecordWithWhy() throws IOException {
    Path broken = Files.createDirectories(pump.resolve("trials/20260313T090000Z"));
    Files.writeString(broken.resolve("trace.csv"), "what is this");
    assertThat(page(ExitCodes.DATA)).contains("could not be read", "trace.csv", "accepted");
    JsonNode record = json(ExitCodes.DATA);
    assertThat(record.at("/trials/0/entry/error").asText()).contains("trace.csv");
    assertThat(record.at("/standing/state").asText()).isEqualTo("accepted");
    Files.move(broken, broken.resolveSibling("20260320T090000Z"));
    assertThat(json(ExitCodes.DATA).at("/standing/state").asText()).isEqualTo("not yet judged");
  }

  /** A stall of 60 s lies between current's begin and its end; only a run may be left out. */
  @Test
  void aStallIsDrawnAllTheWay() throws IOException {
    Path trial = Commissioned.trial(pump, "20260314T090000Z", 480, "");
    StringBuilder text = new StringBuilder("time_s,i1_A,i2_A,i3_A,speed_rpm\n");
    for (int i = 0; i < 1700; i++) {
      double t = i / 25.0;
      double a = t >= 2 && t < 62 ? 480 : 0;
      text.append(String.format(Locale.ROOT, "%.2f,%.1f,%.1f,%.1f,0%n", t, a, a, a));
    }
    Files.writeString(trial.resolve("trace.csv"), text);
    assertThat(page(ExitCodes.MISSED))
        .contains("Start: stalled", "Trial 2: start and stop")
        .doesNotContain("Trial 2: stop");
  }

  @Test
  void aBrokenHeatAccountIsNamedAndTheRestStands() throws IOException {
    Files.writeString(pump.resolve("heat.toml"), "[[trace");
    JsonNode record = json(ExitCodes.DATA);
    assertThat(record.path("heat_now").isNull()).isTrue();
    assertThat(record.path("faults").toString()).contains("heat.toml");
    assertThat(record.at("/standing/state").asText()).isEqualTo("accepted");
    assertThat(Files.readString(pump.resolve("heat.toml"))).isEqualTo("[[trace");
    assertThat(page(ExitCodes.DATA)).contains("Not to be had", "heat.toml");
  }

  @Test
  void aTraceBesideTheSheetIsATrialToo() throws IOException {
    Path trial = pump.resolve("trials").resolve(Commissioned.GOOD);
    Files.move(trial.resolve("trace.csv"), pump.resolve("trace.csv"));
    Files.move(trial.resolve("settings.toml"), pump.resolve("settings.toml"));
    Files.delete(trial);
    Files.delete(pump.resolve("trials"));
    JsonNode record = json(ExitCodes.DONE);
    assertThat(record.at("/standing/state").asText()).isEqualTo("accepted");
    assertThat(record.at("/trials/0/files")).hasSize(2);
    assertThat(record.at("/heat_at_last_trial/starts")).hasSize(1);
    Files.writeString(pump.resolve("trace.txt"), "time_s,i1_A\n0,0\n1,2\n");
    Commissioned.trial(pump, Commissioned.GOOD, 480, "");
    JsonNode both = json(ExitCodes.DATA);
    assertThat(both.path("trials")).hasSize(2);
    assertThat(both.path("faults").toString()).contains("more than one trace");
  }

  @Test
  void withoutAnEnvelopeNothingIsJudged() throws IOException {
    String sheet = Files.readString(pump.resolve("asset.toml"));
    Files.writeString(pump.resolve("asset.toml"), sheet.substring(0, sheet.indexOf("[envelope]")));
    assertThat(json(ExitCodes.NOT_ASSESSABLE).at("/standing/sentence").asText())
        .contains("no [envelope]");
    assertThat(page(ExitCodes.NOT_ASSESSABLE)).contains("no [envelope]");
  }

  @Test
  void aBrokenSheetAndABrokenListStillLeaveTheTrials() throws IOException {
    Files.writeString(pump.resolve("asset.toml"), "[motor]\nrated_power_kW = \"much\"\n");
    Files.writeString(pump.resolve("before-energising.toml"), "[[tick]]\ncheck = \"one\"\n");
    Files.writeString(pump.resolve("signatures.toml"), "[[signature]\n");
    JsonNode record = json(ExitCodes.DATA);
    assertThat(record.at("/trials/0/entry/result/starts/0/outcome").asText())
        .isEqualTo("completed");
    assertThat(record.path("asset").isNull()).isTrue();
    assertThat(record.path("energising_list").isNull()).isTrue();
    assertThat(record.path("signatures").isNull()).isTrue();
    assertThat(page(ExitCodes.DATA))
        .contains("rated_power_kW", "before-energising.toml", "signatures.toml", "not whole");
  }

  @Test
  void usageIsToldAndNothingIsWritten() throws IOException {
    assertThat(CommandRun.run("report", folder).exit()).isEqualTo(ExitCodes.USAGE);
    assertThat(CommandRun.run("report", pump, "--out", folder.resolve("r.doc")).exit())
        .isEqualTo(ExitCodes.USAGE);
    assertThat(CommandRun.run("report", pump, "--pdf", "--out", folder.resolve("r.html")).exit())
        .isEqualTo(ExitCodes.USAGE);
    assertThat(CommandRun.run("report", pump, "--despite", "because").exit())
        .isEqualTo(ExitCodes.USAGE);
    assertThat(CommandRun.run("report", pump, "--json").exit()).isEqualTo(ExitCodes.DONE);
    assertThat(pump.toFile().list()).containsExactlyInAnyOrder("asset.toml", "trials");
    CommandRun.Answer nowhere =
        CommandRun.run("report", pump, "--out", folder.resolve("no/such/r.html"));
    assertThat(nowhere.exit()).isEqualTo(ExitCodes.DATA);
    assertThat(nowhere.err()).contains("there is no folder");
  }

  /** The exit codes of design, as a caller sees them. */
  private static final class ExitCodes {
    static final int DONE = 0;
    static final int USAGE = 2;
    static final int MISSED = 3;
    static final int NOT_ASSESSABLE = 4;
    static final int DATA = 6;
  }
}
