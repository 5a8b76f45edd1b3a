package rampwright.acquisition.modbus;

import java.io.IOException;

/** Bytes to and from a serial port without waiting. */
interface SerialWire {
  /** Opens the port; does nothing when it is open. */
  void open() throws IOException;

  boolean isOpen();

  /** Bytes that can be read at once; below 0 when the port is gone. */
  int available();

  int read(byte[] into, int count);

  int write(byte[] from, int count);

  void close();
}
