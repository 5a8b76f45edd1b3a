package rampwright.acquisition.peer;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.acquisition.device.DeviceFault;
import rampwright.acquisition.device.FaultKind;
import rampwright.acquisition.device.RealTime;
import rampwright.acquisition.device.RegisterPort;
import rampwright.acquisition.map.Link;
import rampwright.acquisition.map.RegisterForm;
import rampwright.acquisition.map.RegisterType;
import rampwright.acquisition.map.SerialSettings;
import rampwright.acquisition.modbus.RtuPort;
import rampwright.acquisition.modbus.TcpPort;

/** Reading an independent server: pymodbus, over TCP and over a serial line made by socat. */
class ModbusPeerTest {
  /** Generous: what is tested is what is read, not how fast. */
  private static final int TIMEOUT_MS = 5000;

  @TempDir private Path folder;

  private static void readsRight(RegisterPort port) throws Exception {
    assertThat(port.read(17, 3, 0, 4, TIMEOUT_MS).words()).containsExactly(1, 8, 15, 22);
    assertThat(port.read(17, 4, 10, 3, TIMEOUT_MS).words()).containsExactly(65525, 65524, 65523);
    assertThat(port.read(17, 1, 0, 9, TIMEOUT_MS).words())
        .containsExactly(1, 0, 0, 1, 0, 0, 1, 0, 0);
    assertThat(port.read(17, 2, 1, 12, TIMEOUT_MS).words())
        .containsExactly(0, 0, 1, 0, 0, 1, 0, 0, 1, 0, 0, 1);
    assertThat(port.read(17, 3, 0, 125, TIMEOUT_MS).words()[124]).isEqualTo(124 * 7 + 1);
    int[] floats = port.read(17, 3, 200, 6, TIMEOUT_MS).words();
    RegisterForm form = new RegisterForm(RegisterType.F32, true, true);
    assertThat(form.decode(floats[0], floats[1])).isEqualTo(160.5);
    assertThat(form.decode(floats[2], floats[3])).isEqualTo(-0.25);
    assertThat(form.decode(floats[4], floats[5])).isEqualTo(1482);
    // One register too far: an illegal data address (Application Protocol V1.1b3, 7).
    assertThatThrownBy(() -> port.read(17, 3, 299, 2, TIMEOUT_MS))
        .isInstanceOfSatisfying(
            DeviceFault.class, fault -> assertThat(fault.kind()).isEqualTo(FaultKind.REFUSED))
        .hasMessageContaining("exception 2 (illegal data address)");
    assertThat(port.read(17, 3, 298, 2, TIMEOUT_MS).words()).hasSize(2);
  }

  @Test
  void overTcp() throws Exception {
    Peers.needPymodbus();
    try (Peers peers = new Peers()) {
      int number = Peers.freePort();
      Process server = peers.tcpServer(number);
      TcpPort port = new TcpPort(new Link.Tcp("127.0.0.1", number), new RealTime());
      readsRight(port);
      server.destroyForcibly().waitFor();
      assertThatThrownBy(() -> port.read(17, 3, 0, 1, 300)).isInstanceOf(DeviceFault.class);
      peers.tcpServer(number);
      readsRight(port);
      port.close();
    }
  }

  @Test
  void overASerialLine() throws Exception {
    Peers.needPymodbus();
    Peers.need("socat");
    try (Peers peers = new Peers()) {
      Path near = folder.resolve("near");
      Path far = folder.resolve("far");
      Process line = peers.lines(near, far);
      peers.rtuServer(far, 115200);
      SerialSettings settings =
          new SerialSettings(near.toString(), 115200, 8, SerialSettings.Parity.NONE, 1);
      RtuPort port = new RtuPort(new Link.Rtu(settings), new RealTime());
      // The server needs a moment to open its side; questions before that go unheard.
      for (int i = 0; i < 50; i++) {
        try {
          port.read(17, 3, 0, 1, 200);
          break;
        } catch (DeviceFault fault) {
          assertThat(fault.kind()).isEqualTo(FaultKind.NO_ANSWER);
        }
      }
      readsRight(port);
      assertThatThrownBy(() -> port.read(18, 3, 0, 1, 200))
          .as("no such unit")
          .isInstanceOf(DeviceFault.class);
      readsRight(port);
      // The cable is pulled: both pseudo-terminals go.
      line.destroyForcibly().waitFor();
      assertThatThrownBy(() -> port.read(17, 3, 0, 1, 200))
          .isInstanceOfSatisfying(
              DeviceFault.class,
              fault ->
                  assertThat(fault.kind())
                      .isIn(FaultKind.LOST, FaultKind.UNREACHABLE, FaultKind.NO_ANSWER));
      port.close();
    }
  }
}
