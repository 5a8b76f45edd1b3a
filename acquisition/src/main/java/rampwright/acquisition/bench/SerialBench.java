package rampwright.acquisition.bench;

import com.fazecast.jSerialComm.SerialPort;
import com.ghgande.j2mod.modbus.util.ModbusUtil;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import rampwright.acquisition.map.SerialSettings;
import rampwright.acquisition.serial.SerialPorts;

/**
 * The bench on a pseudo-terminal: as a Modbus RTU device, unit 1, or as an instrument that prints
 * lines. Nothing can be written to it.
 *
 * <p>RTU frames: MODBUS over Serial Line V1.02, 2.5.1; CRC by the library.
 */
public final class SerialBench implements AutoCloseable {
  /** Separator of printed fields. */
  static final String SEPARATOR = ";";

  /** A real line may lead to a device, and a bench must not talk into it. */
  private static final String PSEUDO_TERMINALS = "/dev/pts/";

  /** Silence that ends a frame, ms; a pseudo-terminal under load is far from 3.5 characters. */
  private static final int QUIET_MS = 20;

  /** Between two looks for a pair of pseudo-terminals that has gone, ms. */
  private static final int AGAIN_MS = 200;

  private static final int QUESTION_BYTES = 8;
  private static final int LONGEST = 256;
  private static final int SHORTEST = 4;

  private final Path terminal;
  private final int baud;
  private final BenchRegisters registers;
  private final FaultDice dice;
  private volatile SerialPort port;
  private volatile boolean closed;

  private SerialBench(Path terminal, int baud, BenchRegisters registers, FaultDice dice)
      throws IOException {
    this.terminal = terminal;
    this.baud = baud;
    this.registers = registers;
    this.dice = dice;
    this.port = opened();
  }

  private SerialPort opened() throws IOException {
    String real = terminal.toRealPath().toString();
    if (!real.startsWith(PSEUDO_TERMINALS)) {
      throw new IOException("is no pseudo-terminal; the bench speaks on nothing else");
    }
    SerialSettings settings = new SerialSettings(real, baud, 8, SerialSettings.Parity.NONE, 1);
    return SerialPorts.open(settings, SerialPort.TIMEOUT_READ_SEMI_BLOCKING, QUIET_MS);
  }

  /** The other end has gone; whoever made the pair may make it again under the same name. */
  private void openAgain() {
    port.closePort();
    while (!closed) {
      try {
        SerialPort fresh = opened();
        port = fresh;
        if (closed) {
          fresh.closePort();
        }
        return;
      } catch (IOException e) {
        // Not yet.
        pause(TimeUnit.MILLISECONDS.toNanos(AGAIN_MS));
      }
    }
  }

  /** Answers as a Modbus RTU device. */
  public static SerialBench rtu(Path terminal, int baud, BenchRegisters registers, FaultDice dice)
      throws IOException {
    SerialBench bench = new SerialBench(terminal, baud, registers, dice);
    daemon("bench rtu", bench::listen);
    return bench;
  }

  /**
   * Prints a line of all quantities again and again.
   *
   * @param hz lines a second of the clock
   */
  public static SerialBench lines(
      Path terminal, int baud, double hz, BenchRegisters registers, FaultDice dice)
      throws IOException {
    SerialBench bench = new SerialBench(terminal, baud, registers, dice);
    daemon("bench lines", () -> bench.print(Math.round(1e9 / hz)));
    return bench;
  }

  private static void daemon(String name, Runnable work) {
    Thread thread = new Thread(work, name);
    thread.setDaemon(true);
    thread.start();
  }

  private void listen() {
    BenchAnswers answers = new BenchAnswers(registers);
    byte[] held = new byte[LONGEST];
    byte[] fresh = new byte[LONGEST];
    int count = 0;
    while (!closed) {
      int got = port.readBytes(fresh, LONGEST - count);
      if (got < 0) {
        openAgain();
        count = 0;
        continue;
      }
      System.arraycopy(fresh, 0, held, count, got);
      count += got;
      boolean whole = count == QUESTION_BYTES && isFrame(held, count);
      if (whole || got == 0 || count == LONGEST) {
        if (isFrame(held, count) && (held[0] & 0xff) == TcpBench.UNIT) {
          answer(answers, Arrays.copyOfRange(held, 1, count - 2));
        }
        count = 0;
      }
    }
  }

  private static boolean isFrame(byte[] bytes, int count) {
    if (count < SHORTEST) {
      return false;
    }
    int[] crc = ModbusUtil.calculateCRC(bytes, 0, count - 2);
    return (bytes[count - 2] & 0xff) == crc[0] && (bytes[count - 1] & 0xff) == crc[1];
  }

  private void answer(BenchAnswers answers, byte[] question) {
    byte[] data = answers.answer(question);
    BenchFault fault = dice.next();
    if (fault == BenchFault.EXCEPTION) {
      data = BenchAnswers.refusal(question[0] & 0xff, BenchAnswers.DEVICE_FAILURE);
    }
    byte[] frame = new byte[data.length + 3];
    frame[0] = TcpBench.UNIT;
    System.arraycopy(data, 0, frame, 1, data.length);
    int[] crc = ModbusUtil.calculateCRC(frame, 0, frame.length - 2);
    frame[frame.length - 2] = (byte) crc[0];
    frame[frame.length - 1] = (byte) crc[1];
    send(frame, fault);
  }

  private void send(byte[] right, BenchFault fault) {
    if (fault == BenchFault.DROP) {
      return;
    }
    if (fault == BenchFault.SLOW) {
      pause(TimeUnit.MILLISECONDS.toNanos(TcpBench.SLOW_MS));
    }
    byte[] bytes = fault == BenchFault.GARBAGE ? dice.garbage(right.length) : right;
    SerialPort open = port;
    open.writeBytes(bytes, bytes.length);
  }

  private void print(long intervalNs) {
    while (!closed) {
      BenchFault fault = dice.next();
      String line = fault == BenchFault.EXCEPTION ? "error 4" : line();
      send((line + "\r\n").getBytes(StandardCharsets.US_ASCII), fault);
      if (port.bytesAvailable() < 0) {
        openAgain();
      }
      pause(intervalNs);
    }
  }

  private String line() {
    BenchReading now = registers.reading();
    StringBuilder line = new StringBuilder();
    for (double value : registers.values(now)) {
      line.append(String.format(Locale.ROOT, "%.2f", value)).append(SEPARATOR);
    }
    return line.append(now.run() ? 1 : 0).toString();
  }

  private static void pause(long ns) {
    try {
      TimeUnit.NANOSECONDS.sleep(ns);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /** Lets the pseudo-terminal go. */
  @Override
  public void close() {
    closed = true;
    port.closePort();
  }
}
