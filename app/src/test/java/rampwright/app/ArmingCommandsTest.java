package rampwright.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import rampwright.app.json.ResultSchemaValidator;
import rampwright.app.usecase.ArmingPermit;

/** Before and after a recording: the heat account's word, and the logbook. */
@ExtendWith(NoInput.class)
class ArmingCommandsTest {
  private static final Path SAMPLE = Path.of("..", "sample-traces", "brine-pump");

  @TempDir private Path folder;
  private Path pump = Path.of("");
  private Path map = Path.of("");

  @BeforeEach
  void copy() throws IOException {
    pump = Files.createDirectories(folder.resolve("pump"));
    Files.copy(SAMPLE.resolve("asset.toml"), pump.resolve("asset.toml"));
    Path trace = SAMPLE.resolve("trials/20260309T081200Z/trace.csv").toAbsolutePath();
    StringBuilder text =
        new StringBuilder("[device]\nname = \"played\"\nlink = \"replay\"\nfile = '")
            .append(trace)
            .append("'\nspeed = 20\npoll_hz = 20\n");
    for (String channel : List.of("i1", "i2", "i3")) {
      text.append("[[channel]]\nname = \"").append(channel).append("\"\nunit = \"A\"\n");
    }
    map = Files.writeString(folder.resolve("played.map.toml"), text);
  }

  private CommandRun.Answer record(ArmingPermit permit, Path asset, String... more) {
    Object[] words = Stream.of("record", asset, "--map", map, "--understood").toArray();
    return DeviceRun.run(permit, Stream.concat(Stream.of(words), Stream.of(more)).toArray());
  }

  private List<Path> trials() throws IOException {
    try (Stream<Path> entries = Files.list(pump.resolve("trials"))) {
      return entries.sorted().toList();
    }
  }

  @Test
  void anEarlyStartIsKeptInTheHeatAccountWithWhatItWentAgainst() throws Exception {
    ArmingPermit permit = DeviceRun.heatPermit();
    assertThat(record(permit, pump, "--json").exit()).isZero();
    CommandRun.Answer refused = record(permit, pump);
    assertThat(refused.exit()).isEqualTo(2);
    assertThat(refused.err()).contains("next start allowed at ", "arm now with --early REASON");
    assertThat(trials()).hasSize(1);
    CommandRun.Answer early = record(permit, pump, "--json", "--early", "the tank overflows");
    assertThat(early.exit()).as(early.err()).isZero();
    assertThat(early.err()).contains("armed before the heat account allows it: next start");
    assertThat(Files.readString(pump.resolve("heat.toml"))).contains("the tank overflows");
    assertThat(Files.readString(trials().get(1).resolve("settings.toml")))
        .contains("armed before the heat account allowed it: the tank overflows");
  }

  /** An early start that nobody has to ask for is not one. */
  @Test
  void aReasonThatIsNotNeededIsNotKept() throws Exception {
    CommandRun.Answer answer =
        record(DeviceRun.heatPermit(), pump, "--json", "--early", "in a hurry");
    assertThat(answer.exit()).as(answer.err()).isZero();
    assertThat(Files.readString(pump.resolve("heat.toml"))).doesNotContain("in a hurry");
    assertThat(Files.readString(trials().get(0).resolve("settings.toml")))
        .doesNotContain("in a hurry");
  }

  /** Where all that stands in the way is that nothing is known, the ways on are said. */
  @Test
  void aFreshFolderThatIsRefusedIsToldHowToGoOn() throws Exception {
    Path bare = Files.createDirectories(folder.resolve("bare"));
    Files.writeString(
        bare.resolve("asset.toml"),
        "[asset]\nid = \"X\"\nname = \"Bare motor\"\n[motor]\nrated_power_kW = 90.0\n"
            + "rated_voltage_V = 400.0\nrated_current_A = 159.0\nrated_frequency_Hz = 50.0\n"
            + "rated_speed_rpm = 1470.0\npower_factor = 0.85\nefficiency_pct = 95.0\n");
    ArmingPermit permit = DeviceRun.heatPermit();
    CommandRun.Answer refused = record(permit, bare);
    assertThat(refused.exit()).isEqualTo(2);
    assertThat(refused.err())
        .contains("nothing is recorded of this motor yet", "--early REASON")
        .contains("rampwright heat " + bare + " --cold-at TIME --by NAME");
    String seen = DeviceRun.TIME.utc().minusSeconds(60).truncatedTo(ChronoUnit.SECONDS).toString();
    assertThat(DeviceRun.run(permit, "heat", bare, "--cold-at", seen, "--by", "a fitter").exit())
        .isZero();
    CommandRun.Answer armed = record(permit, bare, "--json");
    assertThat(armed.exit()).as(armed.err()).isZero();
  }

  @Test
  void aTrialIsEnteredIntoTheLogbookAndOneThatWasKeptOutLater() throws Exception {
    // A folder is no logbook.
    CommandRun.Answer away =
        record(ArmingPermit.UNKNOWN, pump, "--json", "--logbook", folder.toString());
    assertThat(away.exit()).as("the recording is what counts").isZero();
    assertThat(away.err()).contains("not in the logbook yet");
    assertThat(trials().get(0).resolve("not-logged.txt")).exists();
    Path book = folder.resolve("book.db");
    CommandRun.Answer there =
        DeviceRun.run(
            ArmingPermit.UNKNOWN,
            name -> name.equals("RAMPWRIGHT_LOGBOOK") ? book.toString() : null,
            "record",
            pump,
            "--map",
            map,
            "--understood");
    assertThat(there.err().split("entered into the logbook", -1)).hasSize(3);
    assertThat(trials()).hasSize(2).noneMatch(one -> Files.exists(one.resolve("not-logged.txt")));
    CommandRun.Answer listed =
        DeviceRun.run(ArmingPermit.UNKNOWN, "logbook", "export", "--logbook", book);
    assertThat(listed.out().lines().filter(line -> line.startsWith("BP-1,"))).hasSize(2);
  }

  @Test
  void withoutALogbookNothingIsEntered() throws Exception {
    CommandRun.Answer answer = record(ArmingPermit.UNKNOWN, pump, "--json");
    assertThat(answer.err()).doesNotContain("logbook");
    assertThat(trials().get(0).resolve("not-logged.txt")).doesNotExist();
  }

  @Test
  void whatWasGivenUpIsToldAsJsonToo() throws Exception {
    Path still = folder.resolve("still.csv");
    StringBuilder rest = new StringBuilder("time_s,i1_A\n");
    for (int k = 0; k < 40; k++) {
      rest.append(k * 0.05).append(",0\n");
    }
    Files.writeString(still, rest);
    Files.writeString(
        map,
        "[device]\nname = \"played\"\nlink = \"replay\"\nfile = '"
            + still
            + "'\nspeed = 20\npoll_hz = 20\n[[channel]]\nname = \"i1\"\nunit = \"A\"\n");
    CommandRun.Answer answer = record(ArmingPermit.UNKNOWN, pump, "--json");
    assertThat(answer.exit()).as(answer.err()).isZero();
    assertThat(ResultSchemaValidator.problems(answer.out())).as(answer.out()).isEmpty();
    assertThat(answer.json().at("/trial").isNull()).isTrue();
  }
}
