package rampwright.acquisition.peer;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.acquisition.device.DeviceSet;
import rampwright.acquisition.device.Links;
import rampwright.acquisition.device.RealTime;
import rampwright.acquisition.file.ReadOptions;
import rampwright.acquisition.file.TraceFiles;
import rampwright.acquisition.map.MapFiles;
import rampwright.acquisition.record.EndKind;
import rampwright.acquisition.record.RecordPlan;
import rampwright.acquisition.record.RecordedTrial;
import rampwright.acquisition.record.TrialSession;
import rampwright.acquisition.record.TriggerKind;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.Trace;

/** A start recorded from an independent Modbus server, over TCP and over a serial line. */
class RecordPeerTest {
  /**
   * The server's turns are 2 s each; a busy machine's scheduling and the 0.1 s between readings
   * smear their ends.
   */
  private static final double TURN_S = 2;

  private static final double SMEAR_S = 0.7;

  @TempDir private Path folder;
  private final RealTime time = new RealTime();

  private final Links links = new RealLinks(time);

  private static String map(String link) {
    return "[device]\nname = \"starter\"\n"
        + link
        + "unit = 17\npoll_hz = 20\ntimeout_ms = 500\n"
        + "[[channel]]\nname = \"i1\"\nfunction = 4\naddress = 8\ntype = \"u16\"\nscale = 0.1\n"
        + "unit = \"A\"\n[[channel]]\nname = \"run\"\nfunction = 2\naddress = 3\n";
  }

  private void record(String map, TriggerKind on) throws Exception {
    RecordPlan plan =
        new RecordPlan(
            folder.resolve("trials"),
            List.of(MapFiles.parse("m", map)),
            on,
            EndKind.STOPPED,
            1,
            // The server's rest is shorter than the rest that ends a trial.
            5,
            100,
            1480,
            null,
            List.of(),
            true);
    TrialSession session = new TrialSession(plan, time);
    DeviceSet devices = new DeviceSet(plan.maps(), links, time, session, DeviceSet.RECORD_DELAY_NS);
    devices.start();
    for (int i = 0; i < 2000 && !session.isEnded(); i++) {
      TimeUnit.MILLISECONDS.sleep(20);
    }
    devices.stop();
    RecordedTrial trial = session.finish();
    Trace trace = TraceFiles.read(trial.folder().resolve("trace.csv"), ReadOptions.DEFAULT);
    Samples current = trace.channel(ChannelName.I1);
    Samples run = trace.channel(ChannelName.RUN);
    if (current == null || run == null) {
      throw new AssertionError(trace.names());
    }
    double startS = 0;
    double runS = 0;
    for (int i = 1; i < trace.size(); i++) {
      double stepS = trace.time().atS(i) - trace.time().atS(i - 1);
      // What the server holds, times the scale, and nothing in between.
      assertThat(current.at(i)).isIn(0.0, 350.0, 90.0);
      startS += current.at(i) == 350 ? stepS : 0;
      runS += current.at(i) == 90 ? stepS : 0;
    }
    assertThat(startS).isBetween(TURN_S - SMEAR_S, TURN_S + SMEAR_S);
    assertThat(runS).isBetween(TURN_S - SMEAR_S, TURN_S + SMEAR_S);
    assertThat(run.at(trace.size() / 2)).isEqualTo(1);
    assertThat(trial.quality().get(0).readings()).isGreaterThan(30);
  }

  @Test
  void overTcp() throws Exception {
    Peers.needPymodbus();
    try (Peers peers = new Peers()) {
      int port = Peers.freePort();
      peers.tcpMotor(port);
      record(
          map("link = \"tcp\"\nhost = \"127.0.0.1\"\ntcp_port = " + port + "\n"),
          TriggerKind.CURRENT);
    }
  }

  @Test
  void overASerialLine() throws Exception {
    Peers.needPymodbus();
    Peers.need("socat");
    try (Peers peers = new Peers()) {
      Path near = folder.resolve("near");
      Path far = folder.resolve("far");
      peers.lines(near, far);
      peers.rtuMotor(far, 115200);
      record(
          map("link = \"rtu\"\nserial_port = \"" + near + "\"\nbaud = 115200\nparity = \"none\"\n"),
          TriggerKind.RUN);
    }
  }
}
