package rampwright.acquisition.peer;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.FileOutputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.acquisition.device.DeviceFault;
import rampwright.acquisition.device.FaultKind;
import rampwright.acquisition.device.LinePort;
import rampwright.acquisition.device.RealTime;
import rampwright.acquisition.map.LineForm;
import rampwright.acquisition.map.Link;
import rampwright.acquisition.map.SerialSettings;
import rampwright.acquisition.serial.SerialLinePort;

/** Lines over a serial line made by socat; the cable pulled and put back. */
class LinesPeerTest {
  @TempDir private Path folder;

  private static String line(SerialLinePort port) throws DeviceFault {
    for (int i = 0; i < 50; i++) {
      LinePort.Line line = port.next(100);
      if (line != null) {
        return line.text();
      }
    }
    return "(none)";
  }

  @Test
  void linesComeAndGoWithTheCable() throws Exception {
    Peers.need("socat");
    Path near = folder.resolve("near");
    Path far = folder.resolve("far");
    SerialLinePort port =
        new SerialLinePort(
            new Link.Lines(
                new SerialSettings(near.toString(), 9600, 8, SerialSettings.Parity.NONE, 1),
                new LineForm(";", null, "\r\n", false)),
            new RealTime());
    assertThatThrownBy(() -> port.next(50))
        .isInstanceOfSatisfying(
            DeviceFault.class, fault -> assertThat(fault.kind()).isEqualTo(FaultKind.UNREACHABLE))
        .hasMessageContaining("there is no serial port");
    for (int round = 0; round < 2; round++) {
      try (Peers peers = new Peers()) {
        Process cable = peers.lines(near, far);
        assertThat(port.next(50)).isNull();
        try (OutputStream out = new FileOutputStream(far.toFile())) {
          for (String piece : new String[] {"1;2", "\r", "\n3;4\r\n", "x".repeat(600) + "\r\n"}) {
            out.write(piece.getBytes(StandardCharsets.US_ASCII));
            out.flush();
          }
          assertThat(line(port)).isEqualTo("1;2");
          assertThat(line(port)).isEqualTo("3;4");
          assertThatThrownBy(() -> line(port)).hasMessage("a line longer than 512 bytes");
          out.write("5;6\r\n".getBytes(StandardCharsets.US_ASCII));
          assertThat(line(port)).isEqualTo("5;6");
        }
        cable.destroyForcibly().waitFor();
        assertThatThrownBy(() -> line(port))
            .isInstanceOfSatisfying(
                DeviceFault.class,
                fault -> assertThat(fault.kind()).isIn(FaultKind.LOST, FaultKind.UNREACHABLE));
      }
    }
    port.close();
  }
}
