package rampwright.acquisition.peer;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * Programs of others that tests talk to: pymodbus, socat, mbpoll. Where one is missing a test is
 * skipped and says so; Debian has them as python3-pymodbus, socat and mbpoll.
 */
public final class Peers implements AutoCloseable {
  /** Debian's own interpreter: the packages are installed for it. */
  private static final String PYTHON = "/usr/bin/python3";

  private final List<Process> started = new ArrayList<>();

  /** Skips the test where a program is not there. */
  public static void need(String program) {
    boolean there =
        List.of("/usr/bin/" + program, "/bin/" + program, "/usr/local/bin/" + program).stream()
            .anyMatch(path -> Files.isExecutable(Path.of(path)));
    assumeTrue(there, program + " is not installed (Debian: " + program + ")");
  }

  /** Skips the test where pymodbus is not there. */
  public static void needPymodbus() throws Exception {
    assumeTrue(Files.isExecutable(Path.of(PYTHON)), "there is no " + PYTHON);
    Process process =
        new ProcessBuilder(PYTHON, "-c", "import pymodbus.server")
            .redirectErrorStream(true)
            .start();
    process.getInputStream().readAllBytes();
    assumeTrue(process.waitFor() == 0, "pymodbus is not installed (Debian: python3-pymodbus)");
  }

  /** A port of the loopback that was free a moment ago. */
  public static int freePort() throws IOException {
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      return socket.getLocalPort();
    }
  }

  /** Starts the pymodbus server on a TCP port and waits until it listens. */
  public Process tcpServer(int port) throws Exception {
    Process server = python("peer/modbus_server.py", "tcp", "" + port);
    awaitPort(port);
    return server;
  }

  /** Starts a motor behind a pymodbus server on a TCP port and waits until it listens. */
  public void tcpMotor(int port) throws Exception {
    python("peer/motor_server.py", "tcp", "" + port);
    awaitPort(port);
  }

  /** Starts a motor behind a pymodbus server on a serial line. */
  public void rtuMotor(Path device, int baud) throws Exception {
    python("peer/motor_server.py", "rtu", device.toString(), "" + baud);
  }

  /** Starts the pymodbus server on a serial line. */
  public Process rtuServer(Path device, int baud) throws Exception {
    return python("peer/modbus_server.py", "rtu", device.toString(), "" + baud);
  }

  /** Two pseudo-terminals joined by socat: what goes in at one comes out at the other. */
  public Process lines(Path a, Path b) throws Exception {
    Process socat = start("socat", "pty,raw,echo=0,link=" + a, "pty,raw,echo=0,link=" + b);
    for (int i = 0; !(Files.exists(a) && Files.exists(b)); i++) {
      if (i > 500) {
        throw new IllegalStateException("socat made no pseudo-terminals");
      }
      TimeUnit.MILLISECONDS.sleep(20);
    }
    return socat;
  }

  /** Runs a script of the test resources; returns once it has printed its first line. */
  public Process python(String script, String... arguments) throws Exception {
    Path file = Path.of("src", "test", "resources", script).toAbsolutePath();
    List<String> words = new ArrayList<>(List.of(PYTHON, file.toString()));
    words.addAll(List.of(arguments));
    Process process = start(words.toArray(new String[0]));
    BufferedReader said =
        new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8));
    String first = said.readLine();
    if (first == null) {
      throw new IllegalStateException(script + " ended at once");
    }
    return process;
  }

  private Process start(String... words) throws IOException {
    Process process =
        new ProcessBuilder(words).redirectError(ProcessBuilder.Redirect.DISCARD).start();
    started.add(process);
    return process;
  }

  private static void awaitPort(int port) throws InterruptedException {
    for (int i = 0; i < 500; i++) {
      try (Socket socket = new Socket()) {
        socket.connect(new InetSocketAddress(InetAddress.getLoopbackAddress(), port), 200);
        return;
      } catch (IOException e) {
        TimeUnit.MILLISECONDS.sleep(20);
      }
    }
    throw new IllegalStateException("nobody listens on " + port);
  }

  @Override
  public void close() {
    started.forEach(Process::destroyForcibly);
    started.forEach(process -> process.onExit().join());
  }
}
