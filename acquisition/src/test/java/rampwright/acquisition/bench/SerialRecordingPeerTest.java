package rampwright.acquisition.bench;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rampwright.acquisition.device.Await;
import rampwright.acquisition.device.DeviceEvent;
import rampwright.acquisition.device.DeviceSet;
import rampwright.acquisition.device.EventSink;
import rampwright.acquisition.device.Links;
import rampwright.acquisition.device.RealTime;
import rampwright.acquisition.file.ReadOptions;
import rampwright.acquisition.file.TraceFiles;
import rampwright.acquisition.map.ChannelMap;
import rampwright.acquisition.map.MapFiles;
import rampwright.acquisition.peer.Peers;
import rampwright.acquisition.peer.RealLinks;
import rampwright.acquisition.record.DeviceQuality;
import rampwright.acquisition.record.EndKind;
import rampwright.acquisition.record.RecordPlan;
import rampwright.acquisition.record.RecordedTrial;
import rampwright.acquisition.record.TrialSession;
import rampwright.acquisition.record.TriggerKind;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.Trace;

/**
 * Recording over pseudo-terminals of socat while answers go wrong for a second, the cable is pulled
 * and put back, the device is started again: each time a gap with its reason, and readings before
 * and after it that are right.
 */
class SerialRecordingPeerTest {
  private static final int BAUD = 115_200;
  private static final long TROUBLE_MS = 1000;

  /** Readings, 20 a second, that show a device to be read well. */
  private static final int ENOUGH = 16;

  /**
   * A busy machine is late by some intervals of 0.05 s, at the very end with nothing to tell it.
   */
  private static final double BUSY_S = 0.4;

  private static final String NO_REASON = "no reading came, no reason was told";

  @TempDir private Path folder;
  private final RealTime time = new RealTime();
  private final FaultDice dice = new FaultDice(7);
  private final BenchRegisters registers =
      new BenchRegisters(new BenchMotor(BenchMachine.MODEL, BenchMachine.SETTINGS, time, 1), 0, 1);

  private final Links links = new RealLinks(time);

  /** What happens in the middle of a recording. */
  private interface Trouble {
    void happen() throws Exception;
  }

  private SerialBench bench(String link, Path terminal) throws Exception {
    return link.equals("rtu")
        ? SerialBench.rtu(terminal, BAUD, registers, dice)
        : SerialBench.lines(terminal, BAUD, 20, registers, dice);
  }

  private ChannelMap map(String link, Path terminal) throws Exception {
    String text =
        link.equals("rtu")
            ? BenchMap.rtu(terminal.toString(), BAUD, 1)
            : BenchMap.lines(terminal.toString(), BAUD, 1)
                .replace("\npoll_hz", "\ntimeout_ms = 300\npoll_hz");
    return MapFiles.parse("bench", text);
  }

  private RecordedTrial record(ChannelMap map, Trouble trouble) throws Exception {
    RecordPlan plan =
        new RecordPlan(
            folder.resolve("trials"),
            List.of(map),
            TriggerKind.NOW,
            EndKind.STOPPED,
            0,
            60,
            100,
            1480,
            null,
            List.of(),
            true);
    TrialSession session = new TrialSession(plan, time);
    AtomicInteger readings = new AtomicInteger();
    EventSink sink =
        event -> {
          session.take(event);
          readings.addAndGet(event instanceof DeviceEvent.Reading ? 1 : 0);
        };
    DeviceSet devices = new DeviceSet(plan.maps(), links, time, sink, DeviceSet.RECORD_DELAY_NS);
    devices.start();
    Await.until(() -> readings.get() >= ENOUGH, "first readings");
    trouble.happen();
    int before = readings.get();
    Await.until(() -> readings.get() >= before + ENOUGH, "readings after the trouble");
    assertThat(session.isEnded()).as("recording went on").isFalse();
    devices.stop();
    session.endNow("the test");
    return session.finish();
  }

  private static void check(RecordedTrial trial, String reason) throws Exception {
    DeviceQuality quality = trial.quality().get(0);
    Trace trace = TraceFiles.read(trial.folder().resolve("trace.csv"), ReadOptions.DEFAULT);
    double lastS = trace.time().atS(trace.size() - 1);
    assertThat(quality.gaps())
        .anySatisfy(
            gap -> {
              assertThat(gap.why()).containsPattern(reason);
              assertThat(gap.toS() - gap.fromS()).isGreaterThan(TROUBLE_MS * 0.5e-3);
              assertThat(lastS).as("readings after the gap").isGreaterThan(gap.toS() + 0.3);
            });
    assertThat(quality.gaps())
        .noneMatch(gap -> gap.why().equals(NO_REASON) && gap.toS() - gap.fromS() > BUSY_S);
    assertThat(Files.readString(trial.folder().resolve("trace.csv"))).contains("# gap of bench: ");
    Samples volts = trace.channel(ChannelName.V12);
    if (volts == null) {
      throw new AssertionError(trace.names());
    }
    for (int i = 0; i < trace.size(); i++) {
      assertThat(volts.at(i)).isEqualTo(BenchMachine.MODEL.sourceVoltageV());
    }
  }

  @ParameterizedTest
  @CsvSource({
    "rtu, DROP, no answer within 300 ms",
    "rtu, SLOW, no answer within 300 ms",
    "rtu, EXCEPTION, exception 4 \\(device failure\\)",
    "rtu, GARBAGE, checksum of the answer is wrong|no whole Modbus answer|no Modbus answer",
    "lines, DROP, no line for 300 ms",
    "lines, SLOW, no line for 300 ms|no reading came",
    "lines, EXCEPTION, 'line has 1 fields, field 2 is wanted: \"error 4\"|i1 is no number'",
    "lines, GARBAGE, is no number|fields|longer than",
  })
  void wrongAnswersAreAGapWithItsReason(String link, BenchFault fault, String reason)
      throws Exception {
    Peers.need("socat");
    Path near = folder.resolve("near");
    Path far = folder.resolve("far");
    try (Peers peers = new Peers()) {
      peers.lines(near, far);
      try (SerialBench bench = bench(link, far)) {
        assertThat(bench).isNotNull();
        RecordedTrial trial =
            record(
                map(link, near),
                () -> {
                  dice.set(fault, 1);
                  TimeUnit.MILLISECONDS.sleep(TROUBLE_MS);
                  dice.set(BenchFault.NONE, 0);
                });
        check(trial, reason);
      }
    }
  }

  @ParameterizedTest
  @CsvSource({"rtu", "lines"})
  void aPulledCableIsAGapAndPutBackItIsReadAgain(String link) throws Exception {
    Peers.need("socat");
    Path near = folder.resolve("near");
    Path far = folder.resolve("far");
    try (Peers peers = new Peers()) {
      Process cable = peers.lines(near, far);
      try (SerialBench bench = bench(link, far)) {
        assertThat(bench).isNotNull();
        RecordedTrial trial =
            record(
                map(link, near),
                () -> {
                  cable.destroyForcibly().waitFor();
                  TimeUnit.MILLISECONDS.sleep(TROUBLE_MS);
                  Files.deleteIfExists(near);
                  Files.deleteIfExists(far);
                  peers.lines(near, far);
                });
        check(trial, "is gone; is the cable in|there is no serial port");
      }
    }
  }

  @Test
  void aDeviceStartedAgainIsReadAgain() throws Exception {
    Peers.need("socat");
    Peers.needPymodbus();
    Path near = folder.resolve("near");
    Path far = folder.resolve("far");
    try (Peers peers = new Peers()) {
      peers.lines(near, far);
      Process server = peers.rtuServer(far, BAUD);
      ChannelMap map =
          MapFiles.parse(
              "m",
              "[device]\nname = \"bench\"\nlink = \"rtu\"\nserial_port = \""
                  + near
                  + "\"\nbaud = 115200\nparity = \"none\"\nunit = 17\npoll_hz = 20\n"
                  + "[[channel]]\nname = \"i1\"\nfunction = 3\naddress = 2\ntype = \"u16\"\n"
                  + "unit = \"A\"\n");
      RecordedTrial trial =
          record(
              map,
              () -> {
                server.destroyForcibly().waitFor();
                TimeUnit.MILLISECONDS.sleep(TROUBLE_MS);
                peers.rtuServer(far, BAUD);
              });
      assertThat(trial.quality().get(0).gaps())
          .anySatisfy(gap -> assertThat(gap.why()).contains("no answer within 300 ms"));
      Trace trace = TraceFiles.read(trial.folder().resolve("trace.csv"), ReadOptions.DEFAULT);
      Samples current = trace.channel(ChannelName.I1);
      if (current == null) {
        throw new AssertionError(trace.names());
      }
      for (int i = 0; i < trace.size(); i++) {
        // Register 2 of the server holds 2 x 7 + 1.
        assertThat(current.at(i)).isEqualTo(15);
      }
    }
  }
}
