package rampwright.acquisition.bench;

import java.util.Locale;

/** Channel maps that read a bench. */
public final class BenchMap {
  private static final String HEAD =
      "# Written by the bench; what it serves is in acquisition/docs/bench.md.\n[device]\nname = \"bench\"\n";

  private static final String[] NAMES = {"i1", "i2", "i3", "v12", "v23", "v31", "speed"};
  private static final String[] UNITS = {"A", "A", "A", "V", "V", "V", "rpm"};

  /** Readings a second of the motor's time. */
  private static final double POLL_HZ = 20;

  /** Faster than this is of no use on a busy machine. */
  private static final double MOST_HZ = 200;

  /** Two questions and answers of a turn take about 13 ms at 115200 baud; twice that is kept. */
  private static final double RTU_HZ_PER_BAUD = 40.0 / 115_200;

  /** A line has about 60 characters of 10 bits, and half the line's time is enough. */
  private static final double LINE_HZ_PER_BAUD = 0.5 / 600;

  private BenchMap() {}

  /**
   * Text of a {@code *.map.toml} for a bench on TCP.
   *
   * @param pace of the bench; a fast one is read more often
   */
  public static String tcp(int port, double pace) {
    return registers(
        "link = \"tcp\"\nhost = \"127.0.0.1\"\ntcp_port = " + port + "\n", hz(pace, MOST_HZ));
  }

  /** Likewise for a bench on a serial line, at its other end. */
  public static String rtu(String port, int baud, double pace) {
    return registers(serial("rtu", port, baud), hz(pace, RTU_HZ_PER_BAUD * baud));
  }

  /** Likewise for a bench that prints lines. */
  public static String lines(String port, int baud, double pace) {
    StringBuilder map = new StringBuilder(HEAD).append(serial("lines", port, baud));
    map.append("separator = \"").append(SerialBench.SEPARATOR).append("\"\n");
    map.append("terminator = \"\\r\\n\"\n").append(rate(lineHz(baud, pace)));
    for (int k = 0; k <= NAMES.length; k++) {
      map.append("\n[[channel]]\nname = \"")
          .append(k == NAMES.length ? "run" : NAMES[k])
          .append("\"\nfield = ")
          .append(k + 1)
          .append(k == NAMES.length ? "\n" : "\nunit = \"" + UNITS[k] + "\"\n");
    }
    return map.toString();
  }

  /** Lines a second that a bench prints. */
  public static double lineHz(int baud, double pace) {
    return hz(pace, LINE_HZ_PER_BAUD * baud);
  }

  private static double hz(double pace, double most) {
    return Math.max(1, Math.min(Math.min(MOST_HZ, most), POLL_HZ * pace));
  }

  private static String rate(double hz) {
    return String.format(Locale.ROOT, "poll_hz = %.3f\n", hz);
  }

  private static String serial(String link, String port, int baud) {
    String quoted = port.replace("\\", "\\\\").replace("\"", "\\\"");
    return "link = \""
        + link
        + "\"\nserial_port = \""
        + quoted
        + "\"\nbaud = "
        + baud
        + "\nparity = \"none\"\n";
  }

  private static String registers(String link, double hz) {
    StringBuilder map = new StringBuilder(HEAD).append(link);
    map.append("unit = ").append(TcpBench.UNIT).append('\n').append(rate(hz));
    map.append("timeout_ms = 300\n");
    for (int k = 0; k < NAMES.length; k++) {
      map.append("\n[[channel]]\nname = \"")
          .append(NAMES[k])
          .append("\"\nfunction = 4\naddress = ")
          .append(BenchRegisters.FLOATS + 2 * k)
          .append("\ntype = \"f32\"\nunit = \"")
          .append(UNITS[k])
          .append("\"\n");
    }
    return map.append("\n[[channel]]\nname = \"run\"\nfunction = 2\naddress = 0\n").toString();
  }
}
