package rampwright.acquisition.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.acquisition.device.LinePort;
import rampwright.acquisition.device.RealTime;
import rampwright.acquisition.map.ChannelMap;
import rampwright.acquisition.map.Link;
import rampwright.acquisition.map.MapFiles;
import rampwright.acquisition.peer.Peers;
import rampwright.acquisition.serial.SerialLinePort;

/** The bench on pseudo-terminals of socat, read by mbpoll and by the recorder's own port. */
class SerialBenchPeerTest {
  private static final int BAUD = 115_200;

  @TempDir private Path folder;

  private final BenchMotor motor =
      new BenchMotor(BenchMachine.MODEL, BenchMachine.SETTINGS, new RealTime(), 50);
  private final BenchRegisters registers = new BenchRegisters(motor, 0, 1);

  @Test
  void anIndependentClientReadsTheSameNumbersOverRtu() throws Exception {
    Peers.need("socat");
    Peers.need("mbpoll");
    Path near = folder.resolve("near");
    Path far = folder.resolve("far");
    double volt = BenchMachine.MODEL.sourceVoltageV();
    try (Peers peers = new Peers()) {
      peers.lines(near, far);
      try (SerialBench bench = SerialBench.rtu(far, BAUD, registers, new FaultDice(1))) {
        assertThat(mbpoll(near, "-t", "4:float", "-B", "-r", "0", "-c", "7"))
            .containsExactly(0.0, 0.0, 0.0, volt, volt, volt, 0.0);
        assertThat(mbpoll(near, "-t", "1", "-r", "0", "-c", "1")).containsExactly(0.0);
        motor.start();
        assertThat(mbpoll(near, "-t", "1", "-r", "0", "-c", "1")).containsExactly(1.0);
        assertThat(bench).isNotNull();
      }
    }
  }

  private static List<Double> mbpoll(Path line, String... words) throws Exception {
    List<String> command =
        new ArrayList<>(List.of("mbpoll", "-m", "rtu", "-b", "" + BAUD, "-P", "none", "-0", "-1"));
    command.addAll(List.of(words));
    command.addAll(List.of("-a", "1", line.toString()));
    Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
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
  void printedLinesAreReadByTheirMap() throws Exception {
    Peers.need("socat");
    Path near = folder.resolve("near");
    Path far = folder.resolve("far");
    ChannelMap map = MapFiles.parse("bench", BenchMap.lines(near.toString(), BAUD, 1));
    assertThat(map.channels()).hasSize(8);
    try (Peers peers = new Peers()) {
      peers.lines(near, far);
      LinePort port = new SerialLinePort((Link.Lines) map.link(), new RealTime());
      try (SerialBench bench = SerialBench.lines(far, BAUD, 20, registers, new FaultDice(1))) {
        assertThat(bench).isNotNull();
        List<String> heard = new ArrayList<>();
        for (int i = 0; i < 4; i++) {
          LinePort.Line line = port.next(2000);
          heard.add(line == null ? "" : line.text());
        }
        // The first may have begun before anybody listened.
        assertThat(heard.subList(1, 4)).containsOnly("0.00;0.00;0.00;400.00;400.00;400.00;0.00;0");
      } finally {
        port.close();
      }
    }
  }

  @Test
  void onlyPseudoTerminalsAreSpokenOn() throws Exception {
    Path file = Files.writeString(folder.resolve("file"), "");
    assertThatThrownBy(() -> SerialBench.rtu(file, BAUD, registers, new FaultDice(1)))
        .isInstanceOf(IOException.class)
        .hasMessageContaining("no pseudo-terminal");
    assertThatThrownBy(
            () -> SerialBench.rtu(Path.of("/dev/null"), BAUD, registers, new FaultDice(1)))
        .hasMessageContaining("no pseudo-terminal");
  }

  @Test
  void theMapsAreMaps() throws Exception {
    assertThat(MapFiles.parse("b", BenchMap.rtu("/dev/pts/1", 9600, 1)).channels()).hasSize(8);
    assertThat(MapFiles.parse("b", BenchMap.lines("/dev/pts/1", 9600, 9)).channels()).hasSize(8);
  }
}
