package rampwright.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.app.fixture.ToyAnalyzer;
import rampwright.app.fixture.ToyDoor;
import rampwright.app.fixture.Workshop;
import rampwright.app.json.ResultSchemaValidator;
import rampwright.app.usecase.DevicePorts;
import rampwright.app.usecase.HeatPermit;
import rampwright.app.usecase.KeepHeat;

/** The heat account at the terminal: words, JSON, what people tell of it. */
class HeatTerminalTest {
  @TempDir private Path folder;
  private final Instant now = Instant.parse("2026-03-14T12:00:00Z");
  private Workshop workshop;
  private String out = "";
  private String err = "";

  @BeforeEach
  void open() {
    workshop = new Workshop(folder);
  }

  private int run(Object... words) {
    StringWriter results = new StringWriter();
    StringWriter talk = new StringWriter();
    KeepHeat account = new KeepHeat(new ToyDoor(), new ToyAnalyzer(), "1.2.3", () -> now);
    HeatPermit permit = new HeatPermit(account, HeatText::line);
    Services services =
        new Services(
            new ToyDoor(),
            new ToyAnalyzer(),
            request -> Files.writeString(request.target(), "picture"),
            (advised, target, size) -> Files.writeString(target, "picture"),
            (result, target, size) -> Files.writeString(target, "picture"),
            (readiness, target, size) -> Files.writeString(target, "picture"),
            into -> 0,
            "1.2.3",
            1,
            () -> now,
            name -> null,
            new DevicePorts(DevicePorts.NONE.links(), DevicePorts.NONE.time(), permit));
    String[] args = new String[words.length];
    for (int i = 0; i < args.length; i++) {
      args[i] = words[i].toString();
    }
    int exit = new Terminal(new Screen(results, talk, false), services).run(args);
    out = results.toString();
    err = talk.toString();
    return exit;
  }

  private Path pump(double... largestA) throws IOException {
    Path pump = workshop.asset("pump");
    for (int i = 0; i < largestA.length; i++) {
      workshop.trial(pump, "t" + i, largestA[i]);
    }
    return pump;
  }

  private void assertValid() {
    assertThat(ResultSchemaValidator.problems(out)).as(out).isEmpty();
  }

  @Test
  void otherCommandsCarryTheAccountForMachines() throws Exception {
    Path pump = pump(480, 470);
    for (String command : new String[] {"analyze", "compare"}) {
      run(command, pump, "--json");
      assertValid();
      assertThat(out).as(command).contains("\"heat\"", "\"next_start_in_s\"");
    }
    run("advise", pump, "--json");
    assertValid();
    assertThat(out).contains("\"heat\"", "\"next_start_at\"", "\"next_start_rotor_pct\"");
    run("analyze", pump.resolve("trials/t0"), "--json");
    assertValid();
    assertThat(out).contains("\"heat\"");
    Path loose = Workshop.trace(folder.resolve("x.csv"), 100);
    run("analyze", loose, "--json");
    assertThat(out).doesNotContain("\"heat\"");
  }

  @Test
  void aStartWithoutARecordIsToldToTheAccount() throws Exception {
    Path pump = pump(480);
    String time = now.minusSeconds(600).toString();
    assertThat(run("heat", pump, "--note-start", time, "--lasted", "9", "--by", "A. Fitter"))
        .isEqualTo(0);
    assertThat(out).contains("noted by A. Fitter", "not recorded", "told by A. Fitter");
    assertThat(run("heat", pump, "--note-start", "UNKNOWN", "--by", "B\u001b[2J")).isEqualTo(2);
    assertThat(err).contains("without control characters").doesNotContain("\u001b");
    assertThat(run("heat", pump, "--note-start", "UNKNOWN", "--by", "B. Fitter", "--json"))
        .isEqualTo(0);
    assertValid();
    assertThat(out).contains("\"measured\": false");
    Path book = pump.resolve("heat.toml");
    Files.writeString(book, Files.readString(book).replace("B. Fitter", "B\\u001b[2J"));
    run("heat", pump);
    assertThat(out).contains("B\\x1b[2J").doesNotContain("\u001b");
    assertThat(run("heat", pump, "--note-start", "soon", "--by", "A")).isEqualTo(2);
    assertThat(err).contains("or unknown");
    assertThat(run("heat", pump, "--lasted", "9")).isEqualTo(2);
    assertThat(err).contains("go with --note-start");
    assertThat(run("heat", pump, "--clock-right", "--at", time, "--by", "A")).isEqualTo(2);
    assertThat(err).contains("exclude each other");
    assertThat(run("heat", pump, "--clock-right", "--by", "A")).isEqualTo(2);
    assertThat(err).contains("rests on the clock alone");
  }

  @Test
  void timesAreThoseOfTheSite() throws Exception {
    Path pump = pump(480);
    Path sheet = pump.resolve("asset.toml");
    Files.writeString(
        sheet, Files.readString(sheet).replace("[asset]", "[asset]\nzone = \"-03:30\""));
    run("heat", pump);
    String shown = now.atOffset(java.time.ZoneOffset.ofHoursMinutes(-3, -30)).toString();
    assertThat(out).contains(shown.substring(0, 10) + " " + shown.substring(11, 16));
    assertThat(out).contains("-03:30");
    assertThat(pump.resolve("heat.toml")).content().contains("last_seen = " + now);
    run("heat", pump, "--json");
    assertValid();
    assertThat(out).contains("\"zone\": \"-03:30\"", "\"as_of\": \"" + now);
    Files.writeString(sheet, Files.readString(sheet).replace("-03:30", "Site/Nowhere"));
    assertThat(run("heat", pump)).isEqualTo(6);
    assertThat(err).contains("zone = \"Site/Nowhere\" is no time zone", "asset.toml");
  }

  /** One start that would take more than everything there is: no time will do. */
  @Test
  void aStartThatIsTooMuchEvenFromColdIsNotArmedWithoutAWord() throws Exception {
    Path pump = workshop.asset("pump");
    String time = now.minusSeconds(600).toString();
    run(
        "heat",
        pump,
        "--note-start",
        time,
        "--lasted",
        "60",
        "--current-ratio",
        "7",
        "--by",
        "A. B");
    assertThat(out).contains("no next start to be had: rotor");
    Path map = Path.of("..", "acquisition", "maps", "panel-meter.map.toml");
    assertThat(run("record", pump, "--map", map, "--understood")).isEqualTo(2);
    assertThat(err).contains("no next start to be had: rotor", "--early REASON");
  }
}
