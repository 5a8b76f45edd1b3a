package rampwright.acquisition.map;

/** How a device is reached. */
public sealed interface Link {
  /** The longest line an instrument may print, bytes; longer ones are garbage. */
  int LONGEST_LINE = 512;

  /** Word in map files. */
  String key();

  /** What devices that have it in common share: one connection, one port. */
  String shared();

  /** Modbus TCP. */
  record Tcp(String host, int port) implements Link {
    @Override
    public String key() {
      return "tcp";
    }

    @Override
    public String shared() {
      return "tcp " + host + " port " + port;
    }
  }

  /** Modbus RTU. */
  record Rtu(SerialSettings serial) implements Link {
    @Override
    public String key() {
      return "rtu";
    }

    @Override
    public String shared() {
      return "serial " + serial.port();
    }
  }

  /** An instrument that prints lines of text on a serial port. */
  record Lines(SerialSettings serial, LineForm form) implements Link {
    @Override
    public String key() {
      return "lines";
    }

    @Override
    public String shared() {
      return "serial " + serial.port();
    }
  }

  /**
   * A trace file played again as if a device said it.
   *
   * @param file path as the map has it, taken from the map's folder
   * @param speed 1 for real time; 10 for ten times as fast
   */
  record Replay(String file, double speed) implements Link {
    @Override
    public String key() {
      return "replay";
    }

    @Override
    public String shared() {
      return "replay " + file;
    }
  }
}
