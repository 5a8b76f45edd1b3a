package rampwright.app;

import static org.assertj.core.api.Assertions.assertThat;

import com.ghgande.j2mod.modbus.procimg.SimpleProcessImage;
import com.ghgande.j2mod.modbus.procimg.SimpleRegister;
import com.ghgande.j2mod.modbus.slave.ModbusSlave;
import com.ghgande.j2mod.modbus.slave.ModbusSlaveFactory;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import rampwright.app.json.ResultSchemaValidator;
import rampwright.app.usecase.AnalyzeTraces;
import rampwright.app.usecase.ArmingPermit;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.LogTrial;
import rampwright.app.usecase.LogbookUse;
import rampwright.app.usecase.UsageProblem;
import rampwright.app.usecase.WatchPlant;

/** Commands that talk to devices, with real connections and played traces. */
@ExtendWith(NoInput.class)
class DeviceCommandsTest {
  private static final Path SAMPLE = Path.of("..", "sample-traces", "brine-pump");
  private static final String PLAYED = "20260309T081200Z";

  @TempDir private Path folder;
  private Path pump = Path.of("");
  private ArmingPermit permit = ArmingPermit.UNKNOWN;
  private String out = "";
  private String err = "";

  @BeforeEach
  void copy() throws IOException {
    pump = asset("pump");
  }

  private Path asset(String name) throws IOException {
    Path to = Files.createDirectories(folder.resolve(name));
    Files.copy(SAMPLE.resolve("asset.toml"), to.resolve("asset.toml"));
    return to;
  }

  private Path replayMap(int speed) throws IOException {
    Path trace = SAMPLE.resolve("trials").resolve(PLAYED).resolve("trace.csv").toAbsolutePath();
    StringBuilder text =
        new StringBuilder("[device]\nname = \"played\"\nlink = \"replay\"\nfile = '")
            .append(trace)
            .append("'\nspeed = ")
            .append(speed)
            .append("\npoll_hz = 20\n");
    for (String channel : List.of("i1", "i2", "i3")) {
      text.append("[[channel]]\nname = \"").append(channel).append("\"\nunit = \"A\"\n");
    }
    return Files.writeString(folder.resolve("replay.map.toml"), text);
  }

  private Path tcpMap(int port, String more) throws IOException {
    return Files.writeString(
        folder.resolve("tcp.map.toml"),
        "[device]\nname = \"meter\"\nlink = \"tcp\"\nhost = \"127.0.0.1\"\ntcp_port = "
            + port
            + "\npoll_hz = 10\ntimeout_ms = 1000\n[[channel]]\nname = \"v12\"\nfunction = 3\n"
            + "address = 0\ntype = \"f32\"\nunit = \"V\"\n"
            + more);
  }

  private int run(Object... words) {
    CommandRun.Answer answer = DeviceRun.run(permit, words);
    out = answer.out();
    err = answer.err();
    return answer.exit();
  }

  private static int freePort() throws IOException {
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      return socket.getLocalPort();
    }
  }

  private List<Path> trials(Path asset) throws IOException {
    try (Stream<Path> entries = Files.list(asset.resolve("trials"))) {
      return entries.sorted().toList();
    }
  }

  @Test
  void probeShowsRawWordsAndWhichOrderWouldMakeSense() throws Exception {
    int port = freePort();
    ModbusSlave slave =
        ModbusSlaveFactory.createTCPSlave(InetAddress.getLoopbackAddress(), port, 2, false);
    SimpleProcessImage image = new SimpleProcessImage(1);
    // 231.5f is 0x43678000 (IEEE 754), here with its low word first
    image.addRegister(new SimpleRegister(0x8000));
    image.addRegister(new SimpleRegister(0x4367));
    slave.addProcessImage(1, image);
    slave.open();
    try {
      assertThat(run("probe", "--map", tcpMap(port, ""))).isZero();
      assertThat(out)
          .contains("8000 4367", "absurd", "word_order = \"low first\" would make it 231.500 V");
      Path mended = tcpMap(port, "word_order = \"low first\"\n");
      assertThat(run("probe", "--map", mended)).isZero();
      assertThat(out).contains("231.5 V").doesNotContain("absurd");
      assertThat(run("probe", "--map", mended, "--json")).isZero();
      assertThat(ResultSchemaValidator.problems(out)).as(out).isEmpty();
    } finally {
      slave.close();
    }
    assertThat(run("probe", "--map", tcpMap(port, ""))).isEqualTo(5);
    assertThat(out).contains("nobody listens there");
  }

  /** One order suits all: 231.5 V and 12.5 A, of which one is not absurd either way round. */
  @Test
  void probeSaysTheOneOrderThatSuitsEveryChannel() throws Exception {
    int port = freePort();
    ModbusSlave slave =
        ModbusSlaveFactory.createTCPSlave(InetAddress.getLoopbackAddress(), port, 2, false);
    SimpleProcessImage image = new SimpleProcessImage(1);
    // 231.5f is 0x43678000; 12.5f is 0x41480000; 1482.6f is 0x44B95333 (IEEE 754), low word first
    for (int word : new int[] {0x8000, 0x4367, 0x0000, 0x4148, 0x5333, 0x44B9}) {
      image.addRegister(new SimpleRegister(word));
    }
    slave.addProcessImage(1, image);
    slave.open();
    try {
      String more =
          "[[channel]]\nname = \"i1\"\nfunction = 3\naddress = 2\ntype = \"f32\"\nunit = \"A\"\n"
              + "[[channel]]\nname = \"speed\"\nfunction = 3\naddress = 4\ntype = \"f32\"\n"
              + "unit = \"rpm\"\n";
      assertThat(run("probe", "--map", tcpMap(port, more))).isZero();
      assertThat(out.split("and suits every channel", -1)).hasSizeGreaterThan(2);
      assertThat(out)
          .contains("word_order = \"low first\" would make it 231.500 V", "12.5000 A")
          .doesNotContain("byte_order", "; or ");
      Path wrongUnit = tcpMap(port, "");
      Files.writeString(
          wrongUnit, Files.readString(wrongUnit).replace("poll_hz", "unit = 9\npoll_hz"));
      assertThat(run("probe", "--map", wrongUnit)).isEqualTo(5);
      assertThat(out).contains("exception 2 (illegal data address)", "is unit = 9 right?");
    } finally {
      slave.close();
    }
    assertThat(run("probe", "--map", tcpMap(port, ""))).isEqualTo(5);
    assertThat(out)
        .containsOnlyOnce("nobody listens there")
        .contains("are host and tcp_port right?");
  }

  @Test
  void aBrokenMapIsNamedWithItsLine() throws Exception {
    assertThat(run("probe", "--map", tcpMap(1, "scael = 2\n"))).isEqualTo(6);
    assertThat(err).contains("tcp.map.toml line 14", "did you mean scale?");
  }

  @Test
  void aRecordedStartIsATrialWithItsFigures() throws Exception {
    Path settings = SAMPLE.resolve("trials").resolve(PLAYED).resolve("settings.toml");
    int exit =
        run(
            "record",
            pump,
            "--map",
            replayMap(20),
            "--understood",
            "--settings",
            settings,
            "--pre",
            "1.5");
    assertThat(exit).as(err).isIn(3, 4);
    assertThat(err).contains("people clear of motor", "no protective device");
    List<Path> trials = trials(pump);
    assertThat(trials).hasSize(1);
    Path trial = trials.get(0);
    assertThat(out).contains("recorded: " + trial, "played: ", "start time");
    assertThat(Files.readString(trial.resolve("settings.toml")))
        .contains("current_limit_ratio", "[trial]\nat = ");
    assertThat(Files.readString(trial.resolve("trace.csv")))
        .startsWith("# recorded by rampwright\n# began by current above");
    assertThat(trial.resolve("figures.json")).exists();
  }

  @Test
  void recordTellsTheFolderAsJson() throws Exception {
    assertThat(run("record", pump, "--map", replayMap(20), "--understood", "--json")).isZero();
    assertThat(ResultSchemaValidator.problems(out)).as(out).isEmpty();
    assertThat(out).contains("\"trial\": \"" + trials(pump).get(0));
    assertThat(err).contains("what is set on the starter is not known");
  }

  @Test
  void nobodyIsArmedWithoutTheCautions() throws Exception {
    assertThat(run("record", pump, "--map", replayMap(20))).isEqualTo(2);
    assertThat(err).contains("give --understood");
    assertThat(pump.resolve("trials")).doesNotExist();
  }

  @Test
  void whatCannotBeDoneIsSaidBeforeAnythingIsOpened() throws Exception {
    assertThat(run("record", pump, "--map", replayMap(20), "--on", "run")).isEqualTo(2);
    assertThat(err).contains("no map has a run command");
    assertThat(run("record", pump, "--map", replayMap(20), "--on", "smoke")).isEqualTo(2);
    assertThat(err).contains("\"smoke\" begins nothing; write current, speed, run, now");
    assertThat(run("record", pump, "--map", replayMap(20), "--pre", "-1")).isEqualTo(2);
    assertThat(run("record", folder.resolve("none"), "--map", replayMap(20))).isEqualTo(6);
    assertThat(run("record", pump, "--map", replayMap(20), "--map", replayMap(20))).isEqualTo(2);
    assertThat(err).contains("i1 comes from both played and played");
  }

  @Test
  void theHeatAccountIsAskedAndAnEarlyStartIsOnRecord() throws Exception {
    permit = asset -> new ArmingPermit.Answer(false, "next start in 12 min, motor rules", null);
    assertThat(run("record", pump, "--map", replayMap(20), "--understood")).isEqualTo(2);
    assertThat(err).contains("next start in 12 min", "--early REASON");
    assertThat(
            run(
                "record",
                pump,
                "--map",
                replayMap(20),
                "--understood",
                "--json",
                "--early",
                "the tank overflows"))
        .isZero();
    assertThat(Files.readString(trials(pump).get(0).resolve("settings.toml")))
        .contains("armed before the heat account allowed it: the tank overflows");
  }

  @Test
  void aDeviceThatIsNotThereEndsInItsExitCode() throws Exception {
    // Current is what it waits for; the device never answers and the person gives up.
    Process process = start("record", pump, "--map", currentMap(freePort()), "--understood");
    process.toHandle().destroy();
    process.waitFor();
    assertThat(pump.resolve("trials"))
        .satisfiesAnyOf(
            trials -> assertThat(trials).doesNotExist(),
            trials -> assertThat(trials).isEmptyDirectory());
  }

  private Path currentMap(int port) throws IOException {
    String text = Files.readString(tcpMap(port, ""));
    return Files.writeString(
        folder.resolve("current.map.toml"),
        text.replace("name = \"v12\"", "name = \"i1\"").replace("\"V\"", "\"A\""));
  }

  private final List<String> said = new CopyOnWriteArrayList<>();

  private Process start(Object... words) throws Exception {
    List<String> command =
        new java.util.ArrayList<>(
            List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                Launcher.class.getName()));
    Stream.of(words).map(Object::toString).forEach(command::add);
    Process process =
        new ProcessBuilder(command).redirectOutput(folder.resolve("out.txt").toFile()).start();
    Thread reader =
        new Thread(
            () -> {
              try (BufferedReader lines =
                  new BufferedReader(
                      new InputStreamReader(process.getErrorStream(), StandardCharsets.UTF_8))) {
                lines.lines().forEach(said::add);
              } catch (IOException e) {
                said.add("(gone)");
              }
            });
    reader.setDaemon(true);
    reader.start();
    for (int i = 0; i < 1500 && said.stream().noneMatch(l -> l.startsWith("armed")); i++) {
      TimeUnit.MILLISECONDS.sleep(20);
    }
    return process;
  }

  @Test
  void aRecordingThatIsToldToEndKeepsWhatItHas() throws Exception {
    Process process =
        start("record", pump, "--map", replayMap(1), "--understood", "--json", "--pre", "1");
    for (int i = 0; i < 1500 && said.stream().noneMatch(l -> l.startsWith("recording")); i++) {
      TimeUnit.MILLISECONDS.sleep(20);
    }
    TimeUnit.MILLISECONDS.sleep(500);
    // What the system sends on shutdown, and what Ctrl-C comes to.
    process.toHandle().destroy();
    assertThat(process.waitFor()).isEqualTo(143);
    String json = Files.readString(folder.resolve("out.txt"));
    assertThat(ResultSchemaValidator.problems(json)).as(json + said).isEmpty();
    assertThat(json).contains("\"ended\": \"Ctrl-C\"");
    assertThat(trials(pump)).hasSize(1);
    assertThat(trials(pump).get(0).resolve("trace.csv")).exists();
  }

  @Test
  void watchMakesATrialOfEveryStartAndKeepsItsStatus() throws Exception {
    asset("fan");
    replayMap(20);
    Path file =
        Files.writeString(
            folder.resolve("watch.toml"),
            "[watch]\nlog_file = \"w.log\"\n"
                + "[[asset]]\nfolder = \"pump\"\nmaps = \"replay.map.toml\"\n"
                + "[[asset]]\nfolder = \"fan\"\nmaps = \"replay.map.toml\"\nuntil = \"settled\"\n");
    List<String> lines = new CopyOnWriteArrayList<>();
    AnalyzeTraces analyze = new AnalyzeTraces(Wiring.traceFiles(), Wiring.analyzer(), "1", 1);
    LogbookUse logbooks = new LogbookUse(name -> null, DeviceRun.TIME::utc);
    WatchPlant.Watch watch =
        new WatchPlant(DeviceRun.ports(permit), analyze, new LogTrial(analyze, logbooks), logbooks)
            .prepare(file, lines::add);
    Thread runner =
        new Thread(
            () -> {
              try {
                watch.run();
              } catch (InterruptedException | InputProblem | UsageProblem e) {
                lines.add("ended by " + e);
              }
            });
    runner.start();
    for (int i = 0; i < 3000 && lines.isEmpty(); i++) {
      TimeUnit.MILLISECONDS.sleep(20);
    }
    assertThat(run("watch", file)).as("a second one").isEqualTo(2);
    assertThat(err).contains("another watch is at work here");
    for (int i = 0;
        i < 3000 && lines.stream().filter(l -> l.contains("start time")).count() < 2;
        i++) {
      TimeUnit.MILLISECONDS.sleep(20);
    }
    watch.stop();
    runner.join(60_000);
    assertThat(lines).anyMatch(l -> l.endsWith("stopped; 2 trials recorded"));
    for (String name : List.of("pump", "fan")) {
      List<Path> trials = trials(folder.resolve(name));
      assertThat(trials).hasSize(1);
      assertThat(trials.get(0).resolve("figures.json")).exists();
      assertThat(Files.readString(trials.get(0).resolve("trace.csv")))
          .startsWith("# recorded by rampwright watch");
    }
    String status = Files.readString(folder.resolve("watch-status.json"));
    assertThat(ResultSchemaValidator.problems(status)).as(status).isEmpty();
    assertThat(status).contains("\"state\": \"ended\"", "\"trials\": 2");
    assertThat(Files.readString(folder.resolve("w.log"))).contains("completed, start time");
    // The logbook lies beside the watch file where nothing else is said.
    assertThat(lines)
        .as("%s", lines)
        .filteredOn(l -> l.endsWith("entered into the logbook"))
        .hasSize(2);
    assertThat(run("logbook", "export", "--logbook", folder.resolve("logbook.db"))).isZero();
    for (String name : List.of("pump", "fan")) {
      assertThat(trials(folder.resolve(name)).get(0).resolve("not-logged.txt")).doesNotExist();
    }
  }

  @Test
  void aTrialThatIsBeingRecordedIsNotYetATrial() throws Exception {
    Path trials = pump.resolve("trials");
    Path half = Files.createDirectories(trials.resolve("20260310T000000Z"));
    Files.writeString(half.resolve("settings.toml"), "[trial]\nat = 2026-03-10T00:00:00Z\n");
    Files.writeString(half.resolve("readings.journal"), "");
    Path whole = Files.createDirectories(trials.resolve(PLAYED));
    Files.copy(
        SAMPLE.resolve("trials").resolve(PLAYED).resolve("trace.csv"), whole.resolve("trace.csv"));
    run("analyze", pump, "--no-keep");
    assertThat(out + err).contains(PLAYED).doesNotContain("20260310T000000Z");
  }

  @Test
  void whatIsWrongInAWatchFileIsNamedWithItsLine() throws Exception {
    Path file =
        Files.writeString(
            folder.resolve("watch.toml"),
            "[watch]\nkeep_newst = 3\n[[asset]]\nfolder = \"pump\"\non = \"smoke\"\n");
    assertThat(run("watch", file)).isEqualTo(6);
    assertThat(err)
        .contains(
            "watch.toml line 2: [watch] keep_newst is not known here; did you mean keep_newest?",
            "line 5: [asset] on = \"smoke\" is not known",
            "maps is missing");
  }
}
