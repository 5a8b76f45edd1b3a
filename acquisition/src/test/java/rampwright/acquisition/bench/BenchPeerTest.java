package rampwright.acquisition.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.net.BindException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.NetworkInterface;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import rampwright.acquisition.device.DeviceFault;
import rampwright.acquisition.device.FaultKind;
import rampwright.acquisition.device.RealTime;
import rampwright.acquisition.map.Link;
import rampwright.acquisition.map.MapFiles;
import rampwright.acquisition.modbus.TcpPort;
import rampwright.acquisition.peer.Peers;

/** The bench over TCP, read by mbpoll (an independent client) and by the recorder's own port. */
class BenchPeerTest {
  /** Nothing changes at rest and nothing is noisy here: only the last digit of what is printed. */
  private static final double PRINTED = 0.05;

  private BenchMotor motor;
  private FaultDice dice;
  private TcpBench bench;

  @BeforeEach
  void open() throws Exception {
    motor = new BenchMotor(BenchMachine.MODEL, BenchMachine.SETTINGS, new RealTime(), 50);
    dice = new FaultDice(1);
    bench = new TcpBench(0, new BenchRegisters(motor, 0, 1), dice);
  }

  @AfterEach
  void close() throws Exception {
    bench.close();
  }

  /** Runs mbpoll once: what it prints for each reference, or why it failed. */
  private List<Double> mbpoll(String... words) throws Exception {
    List<String> line = new ArrayList<>(List.of("mbpoll", "-m", "tcp", "-p", "" + bench.port()));
    line.addAll(List.of("-0", "-1", "-a", "1"));
    line.addAll(List.of(words));
    Process process = new ProcessBuilder(line).redirectErrorStream(true).start();
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(process.waitFor()).as(said).isZero();
    List<Double> values = new ArrayList<>();
    Matcher rows = Pattern.compile("(?m)^\\[\\d+\\]:\\s+(-?[0-9.e+]+)").matcher(said);
    while (rows.find()) {
      values.add(Double.parseDouble(rows.group(1)));
    }
    return values;
  }

  @Test
  void anIndependentClientReadsTheSameNumbers() throws Exception {
    Peers.need("mbpoll");
    double volt = BenchMachine.MODEL.sourceVoltageV();
    for (String table : List.of("3:float", "4:float")) {
      assertThat(mbpoll("-t", table, "-B", "-r", "0", "-c", "7", "127.0.0.1"))
          .containsExactly(0.0, 0.0, 0.0, volt, volt, volt, 0.0);
    }
    assertThat(mbpoll("-t", "1", "-r", "0", "-c", "1", "127.0.0.1")).containsExactly(0.0);
    motor.start();
    assertThat(mbpoll("-t", "1", "-r", "0", "-c", "1", "127.0.0.1")).containsExactly(1.0);
    assertThat(mbpoll("-t", "0", "-r", "0", "-c", "1", "127.0.0.1")).containsExactly(1.0);
    while (motor.state() != BenchMotor.State.RUNNING) {
      Thread.sleep(10);
    }
    // Half a minute of the motor: the run has settled and no longer changes.
    Thread.sleep(700);
    BenchReading now = motor.reading();
    assertThat(now.currentA()).isPositive();
    List<Double> floats = mbpoll("-t", "4:float", "-B", "-r", "0", "-c", "7", "127.0.0.1");
    assertThat(floats.get(1)).isEqualTo(now.currentA(), within(PRINTED));
    assertThat(floats.get(4)).isEqualTo(now.lineVoltageV(), within(PRINTED));
    assertThat(floats.get(6)).isEqualTo(now.speedRpm(), within(PRINTED));
    BenchRegisters registers = new BenchRegisters(motor, 0, 1);
    List<Double> scaled = mbpoll("-t", "4", "-r", "100", "-c", "7", "127.0.0.1");
    assertThat(scaled.get(0) * registers.currentScale())
        .isEqualTo(now.currentA(), within(registers.currentScale()));
    assertThat(scaled.get(5) * registers.voltageScale())
        .isEqualTo(now.lineVoltageV(), within(registers.voltageScale()));
    assertThat(scaled.get(6) * registers.speedScale())
        .isEqualTo(now.speedRpm(), within(registers.speedScale()));
  }

  @Test
  void anIndependentClientCannotWrite() throws Exception {
    Peers.need("mbpoll");
    Process process =
        new ProcessBuilder(
                "mbpoll",
                "-m",
                "tcp",
                "-p",
                "" + bench.port(),
                "-0",
                "-a",
                "1",
                "-t",
                "4",
                "-r",
                "100",
                "127.0.0.1",
                "7")
            .redirectErrorStream(true)
            .start();
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    process.waitFor();
    assertThat(said).containsIgnoringCase("illegal function");
  }

  @Test
  void onlyTheLoopbackIsListenedOn() throws Exception {
    assertThat(bench.address()).isEqualTo(InetAddress.getByName("127.0.0.1"));
    List<InetAddress> others =
        NetworkInterface.networkInterfaces()
            .flatMap(NetworkInterface::inetAddresses)
            .filter(address -> !address.isLoopbackAddress())
            .toList();
    // 127.0.0.2 is this machine too on Linux, and stands in where there is no network at all.
    List<InetAddress> tried = new ArrayList<>(others);
    tried.add(InetAddress.getByName("127.0.0.2"));
    for (InetAddress address : tried) {
      try (Socket socket = new Socket()) {
        assertThatThrownBy(() -> socket.connect(new InetSocketAddress(address, bench.port()), 300))
            .as("%s", address)
            .isInstanceOf(java.io.IOException.class);
      }
    }
  }

  @Test
  void aTakenPortIsSaid() {
    int taken = bench.port();
    assertThatThrownBy(() -> new TcpBench(taken, new BenchRegisters(motor, 0, 1), dice))
        .isInstanceOf(BindException.class);
  }

  private FaultKind faultOf(BenchFault fault) {
    dice.set(fault, 1);
    TcpPort port = new TcpPort(new Link.Tcp("127.0.0.1", bench.port()), new RealTime());
    try {
      port.read(TcpBench.UNIT, 4, 0, 14, 200);
      throw new AssertionError(fault + " answered");
    } catch (DeviceFault e) {
      return e.kind();
    } finally {
      port.close();
      dice.set(BenchFault.NONE, 0);
    }
  }

  @Test
  void faultsComeOnDemandAndGo() throws Exception {
    assertThat(faultOf(BenchFault.DROP)).isEqualTo(FaultKind.NO_ANSWER);
    assertThat(faultOf(BenchFault.SLOW)).isEqualTo(FaultKind.NO_ANSWER);
    assertThat(faultOf(BenchFault.EXCEPTION)).isEqualTo(FaultKind.REFUSED);
    assertThat(faultOf(BenchFault.GARBAGE))
        .isIn(FaultKind.GARBAGE, FaultKind.NO_ANSWER, FaultKind.WRONG_ANSWER, FaultKind.LOST);
    TcpPort port = new TcpPort(new Link.Tcp("127.0.0.1", bench.port()), new RealTime());
    assertThat(port.read(TcpBench.UNIT, 4, 0, 14, 2000).words()).hasSize(14);
    // Beyond the layout, across its gap, other units, too many: refused, and the next is answered.
    for (int[] wrong : new int[][] {{1, 4, 14, 1}, {1, 4, 13, 2}, {1, 3, 107, 1}, {2, 4, 0, 1}}) {
      assertThatThrownBy(() -> port.read(wrong[0], wrong[1], wrong[2], wrong[3], 2000))
          .isInstanceOfSatisfying(
              DeviceFault.class, e -> assertThat(e.kind()).isEqualTo(FaultKind.REFUSED));
    }
    assertThat(port.read(TcpBench.UNIT, 3, 100, 7, 2000).words()).hasSize(7);
    port.close();
  }

  @Test
  void theMapIsAMap() throws Exception {
    assertThat(MapFiles.parse("bench", BenchMap.tcp(1502, 1)).channels()).hasSize(8);
    assertThat(MapFiles.parse("bench", BenchMap.tcp(1502, 1000)).channels()).hasSize(8);
    assertThat(MapFiles.parse("bench", BenchMap.tcp(1502, 0.1)).channels()).hasSize(8);
  }
}
