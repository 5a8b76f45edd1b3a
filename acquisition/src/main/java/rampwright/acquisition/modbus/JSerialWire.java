package rampwright.acquisition.modbus;

import com.fazecast.jSerialComm.SerialPort;
import java.io.IOException;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.map.SerialSettings;
import rampwright.acquisition.serial.SerialPorts;

/** A serial port of this machine. */
final class JSerialWire implements SerialWire {
  private final SerialSettings settings;
  private @Nullable SerialPort port;

  JSerialWire(SerialSettings settings) {
    this.settings = settings;
  }

  @Override
  public void open() throws IOException {
    if (isOpen()) {
      return;
    }
    port = SerialPorts.open(settings, SerialPort.TIMEOUT_NONBLOCKING, 0);
  }

  @Override
  public boolean isOpen() {
    return port != null && port.isOpen();
  }

  @Override
  public int available() {
    return port == null ? -1 : port.bytesAvailable();
  }

  @Override
  public int read(byte[] into, int count) {
    return port == null ? -1 : port.readBytes(into, count);
  }

  @Override
  public int write(byte[] from, int count) {
    return port == null ? -1 : port.writeBytes(from, count);
  }

  @Override
  public void close() {
    SerialPort open = port;
    port = null;
    if (open != null) {
      open.closePort();
    }
  }
}
