package rampwright.acquisition.map;

/**
 * How a serial line is set.
 *
 * @param port name of the port in this machine, for example {@code /dev/ttyS0} or {@code COM3}
 * @param baud bits a second
 * @param dataBits 7 or 8
 * @param parity none, even or odd
 * @param stopBits 1 or 2
 */
public record SerialSettings(String port, int baud, int dataBits, Parity parity, int stopBits) {
  /** The parity bit. */
  public enum Parity {
    NONE("none"),
    EVEN("even"),
    ODD("odd");

    private final String key;

    Parity(String key) {
      this.key = key;
    }

    /** Word in map files. */
    public String key() {
      return key;
    }
  }

  /** Bits on the line for one byte: start, data, parity, stop. */
  public int bitsPerByte() {
    return 1 + dataBits + (parity == Parity.NONE ? 0 : 1) + stopBits;
  }

  /** Time on the line for so many bytes, ns. */
  public long lineTimeNs(int bytes) {
    return 1_000_000_000L * bytes * bitsPerByte() / baud;
  }
}
