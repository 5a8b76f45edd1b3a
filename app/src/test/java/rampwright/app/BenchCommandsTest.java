package rampwright.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import rampwright.acquisition.bench.BenchFault;
import rampwright.acquisition.bench.BenchMotor;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.RunFigure;
import rampwright.analysis.machine.RunFigures;
import rampwright.analysis.machine.RunPlan;
import rampwright.analysis.machine.RunSimulator;
import rampwright.analysis.machine.StarterSettings;
import rampwright.app.asset.AssetFiles;
import rampwright.app.asset.MachineSheet;
import rampwright.app.asset.TrialFiles;
import rampwright.app.json.ResultSchemaValidator;
import rampwright.app.usecase.ArmingPermit;
import rampwright.app.usecase.Bench;
import rampwright.app.usecase.PlayBench;

/** The bench by its command, and recorded from by the other one. */
@ExtendWith(NoInput.class)
class BenchCommandsTest {
  private static final Path SAMPLE = Path.of("..", "sample-traces", "brine-pump");

  /** The motor's seconds in one of the clock: short enough to wait for. */
  private static final double PACE = 5;

  /**
   * Readings come every 1/100 s, 0.05 s of the motor, and a busy machine is late by a few of them.
   */
  private static final double LATE_S = 0.3;

  /** 115200 baud carry 40 readings a second, 0.05 s of the motor at this pace. */
  private static final double SERIAL_PACE = 2;

  /** As over TCP; an answer takes up to 0.03 s longer, 0.06 s of the motor. */
  private static final double SERIAL_LATE_S = 0.4;

  /** The meter's noise of 0.3 %, of which a peak takes the largest of many, and a peak's slope. */
  private static final double PEAK_SHARE = 0.03;

  /** Three readings of 0.3 % noise against a mean of many, in the worst of three pairs. */
  private static final double DIP_PCT = 1.0;

  @TempDir private Path folder;
  private Path pump = Path.of("");

  @BeforeEach
  void copy() throws IOException {
    pump = Files.createDirectories(folder.resolve("pump"));
    Files.copy(SAMPLE.resolve("asset.toml"), pump.resolve("asset.toml"));
    try (Stream<Path> trials = Files.list(SAMPLE.resolve("trials"))) {
      // The last one stops softly.
      Path last = trials.max(Comparator.naturalOrder()).orElseThrow();
      Files.copy(last.resolve("settings.toml"), pump.resolve("settings.toml"));
    }
  }

  private static CommandRun.Answer run(Object... words) {
    return DeviceRun.run(ArmingPermit.UNKNOWN, words);
  }

  private Bench open(Path map, double pace) throws Exception {
    return open(map, pace, null, null);
  }

  private Bench open(
      Path map, double pace, PlayBench.@Nullable Terminals rtu, PlayBench.@Nullable Terminals lines)
      throws Exception {
    return new PlayBench(DeviceRun.TIME)
        .open(
            new PlayBench.Request(
                pump, null, 0, map, rtu, lines, 115_200, pace, 0.003, 1, BenchFault.NONE, 0));
  }

  /**
   * Start, run, stop: recorded as from any device, with the figures of the model that was played.
   */
  @Test
  void aTrialIsRecordedFromTheBench() throws Exception {
    Path map = folder.resolve("bench.map.toml");
    try (Bench bench = open(map, PACE)) {
      recordAndCompare(bench, map, PACE, LATE_S);
    }
  }

  @Test
  void aTrialIsRecordedFromTheBenchOverRtu() throws Exception {
    try (PtyPair pair = new PtyPair(folder);
        Bench bench =
            open(
                folder.resolve("bench.map.toml"),
                SERIAL_PACE,
                new PlayBench.Terminals(pair.own(), pair.other()),
                null)) {
      recordAndCompare(bench, folder.resolve("rtu-bench.map.toml"), SERIAL_PACE, SERIAL_LATE_S);
    }
  }

  @Test
  void aTrialIsRecordedFromTheBenchThatPrintsLines() throws Exception {
    try (PtyPair pair = new PtyPair(folder);
        Bench bench =
            open(
                folder.resolve("bench.map.toml"),
                SERIAL_PACE,
                null,
                new PlayBench.Terminals(pair.own(), pair.other()))) {
      recordAndCompare(bench, folder.resolve("lines-bench.map.toml"), SERIAL_PACE, SERIAL_LATE_S);
    }
  }

  private void recordAndCompare(Bench bench, Path map, double pace, double lateS) throws Exception {
    MachineModel machine = bench.motor().model();
    StarterSettings settings =
        MachineSheet.settings(
            TrialFiles.read(pump.resolve("settings.toml")).settings(),
            AssetFiles.read(pump.resolve("asset.toml")).asset());
    RunPlan plan = RunPlan.startAndStop(120, 20);
    RunFigures model =
        RunFigures.of(
            RunSimulator.run(machine, settings, plan), machine, RunFigures.PhaseFactors.BALANCED);
    Thread operator =
        new Thread(
            () -> {
              while (!isArmed()) {
                pause(20);
              }
              // What was before the start belongs to the trial: 1 s, and what a busy machine takes.
              pause(1500);
              bench.order("start");
              while (bench.motor().state() != BenchMotor.State.RUNNING) {
                pause(20);
              }
              // So long that the run is told from the start: 6 s of the motor.
              pause((int) Math.round(6000 / pace));
              bench.order("stop");
            });
    operator.start();
    CommandRun.Answer recorded = run("record", pump, "--map", map, "--pre", "1", "--understood");
    operator.join();
    assertThat(recorded.out()).as(recorded.err()).contains("recorded: ");
    JsonNode figures = new ObjectMapper().readTree(run("analyze", pump, "--json").out());
    JsonNode start = figures.findValue("starts").get(0);
    assertThat(value(start, "start_time_s") * pace)
        .isEqualTo(model.of(RunFigure.START_TIME), within(lateS));
    assertThat(value(start, "peak_current_ratio"))
        .isEqualTo(
            model.of(RunFigure.PEAK_CURRENT),
            within(PEAK_SHARE * model.of(RunFigure.PEAK_CURRENT)));
    assertThat(value(start, "voltage_dip_pct"))
        .isEqualTo(model.of(RunFigure.VOLTAGE_DIP), within(DIP_PCT));
    JsonNode stop = start.get("stop");
    assertThat(value(stop, "controlled_time_s") * pace)
        .isEqualTo(model.of(RunFigure.CONTROLLED_TIME), within(lateS));
    assertThat(value(stop, "stop_time_s") * pace)
        .isEqualTo(model.of(RunFigure.STOP_TIME), within(lateS));
  }

  /** Readings at rest are on disk from the first on, in a hidden folder. */
  private boolean isArmed() {
    try (Stream<Path> entries = Files.list(pump.resolve("trials"))) {
      return entries.anyMatch(entry -> entry.getFileName().toString().startsWith(".armed"));
    } catch (IOException e) {
      return false;
    }
  }

  private static double value(JsonNode start, String key) {
    return start.findValue(key).get("value").asDouble();
  }

  private static void pause(int ms) {
    try {
      Thread.sleep(ms);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  @Test
  void unattendedItStartsStopsAndQuits() {
    Path map = folder.resolve("bench.map.toml");
    CommandRun.Answer bench =
        run(
            "bench",
            pump,
            "--tcp-port",
            "0",
            "--map-out",
            map,
            "--pace",
            "50",
            "--start-after",
            "0.1",
            "--stop-after",
            "1.5",
            "--quit-after",
            "1.8");
    assertThat(bench.exit()).isZero();
    assertThat(bench.out()).contains("Modbus TCP 127.0.0.1:").contains(map.toString());
    assertThat(bench.err())
        .containsSubsequence("started", "is starting", "is running", "stopping as set", "closed");
    assertThat(map).exists();
  }

  @Test
  void whereItIsFoundIsToldAsJson() {
    Path map = folder.resolve("bench.map.toml");
    CommandRun.Answer bench =
        run("bench", pump, "--tcp-port", "0", "--map-out", map, "--quit-after", "0.1", "--json");
    assertThat(bench.exit()).isZero();
    assertThat(ResultSchemaValidator.problems(bench.out())).as(bench.out()).isEmpty();
    assertThat(bench.json().at("/asset").asText()).isEqualTo("Brine pump");
    assertThat(bench.json().at("/tcp/port").asInt()).isPositive();
    assertThat(bench.json().at("/maps/0").asText()).isEqualTo(map.toString());
    assertThat(bench.err()).contains("the bench is closed");
  }

  @Test
  void aTakenPortIsADevicesFault() throws Exception {
    try (ServerSocket other = new ServerSocket(0, 1, InetAddress.getByName("127.0.0.1"))) {
      CommandRun.Answer bench =
          run(
              "bench",
              pump,
              "--tcp-port",
              other.getLocalPort(),
              "--map-out",
              folder.resolve("bench.map.toml"));
      assertThat(bench.exit()).isEqualTo(5);
      assertThat(bench.err()).contains("another program listens there").doesNotContain("\tat ");
    }
  }

  @Test
  void whatCannotBeIsSaid() throws Exception {
    Path map = folder.resolve("bench.map.toml");
    assertThat(run("bench", pump, "--pace", "0").exit()).isEqualTo(2);
    assertThat(run("bench", pump, "--rtu", "/dev/pts/1").err()).contains("two ends");
    CommandRun.Answer file =
        run("bench", pump, "--tcp-port", "0", "--map-out", map, "--rtu", "/dev/null,b");
    assertThat(file.exit()).isEqualTo(5);
    assertThat(file.err()).contains("/dev/null: is no pseudo-terminal");
    assertThat(run("bench", pump, "--tcp-port", "0", "--map-out", map, "--lines", "nope,b").exit())
        .isEqualTo(5);
    assertThat(run("bench", pump, "--fault", "smoke").err()).contains("drop, slow, exception");
    assertThat(run("bench", folder.resolve("nowhere")).exit()).isEqualTo(6);
    assertThat(run("bench", pump, "--tcp-port", "0", "--map-out", folder.resolve("no/m")).exit())
        .isEqualTo(6);
    Files.writeString(pump.resolve("settings.toml"), "control = \"torque ramp\"\n");
    CommandRun.Answer little = run("bench", pump, "--tcp-port", "0", "--map-out", map);
    assertThat(little.exit()).isEqualTo(2);
    assertThat(little.err()).contains("too little to start with");
    Files.delete(pump.resolve("settings.toml"));
    assertThat(run("bench", pump, "--tcp-port", "0").err()).contains("give --settings FILE");
  }

  /** A trial recorded without settings does not hide what an older one says. */
  @Test
  void theLastSettingsThatSayEnoughAreTaken() throws Exception {
    Path older = Files.createDirectories(pump.resolve("trials").resolve("20260101T000000Z"));
    Path newer = Files.createDirectories(pump.resolve("trials").resolve("20260102T000000Z"));
    Files.move(pump.resolve("settings.toml"), older.resolve("settings.toml"));
    Files.writeString(newer.resolve("settings.toml"), "stop = \"soft\"\n");
    try (Bench bench = open(folder.resolve("m.map.toml"), 1)) {
      assertThat(bench.sheet().settings()).isEqualTo(older.resolve("settings.toml"));
    }
  }

  @Test
  void ordersAreDoneOrAnswered() throws Exception {
    try (Bench bench = open(folder.resolve("m.map.toml"), 1)) {
      assertThat(bench.order("stop")).contains("nothing to stop");
      assertThat(bench.order("set ramp_up_s 8")).contains("ramp_up_s is 8");
      assertThat(bench.order("set ramp_up_s 8000")).contains("0 to 600");
      assertThat(bench.order("set ramp_up_s fast")).contains("0 to 600");
      assertThat(bench.order("set control voltage ramp")).contains("control is voltage ramp");
      assertThat(bench.order("set colour blue")).contains("there are control, stop");
      assertThat(bench.order("set")).contains("needs a key");
      assertThat(bench.order("fault drop 0.5")).isEqualTo("drop: 0.5");
      assertThat(bench.order("fault drop 5")).contains("0 to 1");
      assertThat(bench.order("fault none")).isEqualTo("answers are right");
      assertThat(bench.order("dance")).contains("not understood");
      assertThat(bench.order("start")).isEqualTo("started");
      assertThat(bench.order("start")).contains("not started");
      assertThat(bench.order("stop")).contains("coasts");
    }
  }

  private double peakRatio(String limit) throws Exception {
    try (Bench bench = open(folder.resolve("m.map.toml"), 20)) {
      bench.order("set current_limit_ratio " + limit);
      bench.order("start");
      double peakA = 0;
      for (int i = 0; i < 25; i++) {
        pause(10);
        peakA = Math.max(peakA, bench.motor().reading().currentA());
      }
      return peakA / bench.motor().model().plate().ratedCurrentA();
    }
  }

  /**
   * A start of the sample reaches a low limit, and 2.4 by its ramp alone; a starter's limit may err
   * by some percent.
   */
  @Test
  void whatIsSetIsPlayed() throws Exception {
    double low = peakRatio("1.8");
    assertThat(low).isEqualTo(1.8, within(0.1));
    assertThat(peakRatio("3")).isGreaterThan(low + 0.5);
  }
}
