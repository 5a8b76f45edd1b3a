package rampwright.acquisition.bench;

import java.util.Locale;

/** The channel map that reads a bench. */
public final class BenchMap {
  private static final String[] NAMES = {"i1", "i2", "i3", "v12", "v23", "v31", "speed"};
  private static final String[] UNITS = {"A", "A", "A", "V", "V", "V", "rpm"};

  /** Readings a second of the motor's time. */
  private static final double POLL_HZ = 20;

  /** Faster than this is of no use on a busy machine. */
  private static final double MOST_HZ = 200;

  private BenchMap() {}

  /**
   * Text of a {@code *.map.toml} for a bench on TCP.
   *
   * @param pace of the bench; a fast one is read more often
   */
  public static String tcp(int port, double pace) {
    double hz = Math.max(1, Math.min(MOST_HZ, POLL_HZ * pace));
    StringBuilder map =
        new StringBuilder(
                "# Written by the bench; its registers are in acquisition/docs/bench.md.\n")
            .append("[device]\nname = \"bench\"\nlink = \"tcp\"\nhost = \"127.0.0.1\"\n")
            .append(
                String.format(
                    Locale.ROOT,
                    "tcp_port = %d\nunit = %d\npoll_hz = %.3f\ntimeout_ms = 300\n",
                    port,
                    TcpBench.UNIT,
                    hz));
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
