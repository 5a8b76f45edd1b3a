package rampwright.acquisition.modbus;

import com.ghgande.j2mod.modbus.io.AbstractModbusTransport;
import com.ghgande.j2mod.modbus.net.AbstractSerialConnection;
import java.io.IOException;
import java.util.Set;
import java.util.concurrent.locks.LockSupport;
import rampwright.acquisition.device.Timekeeper;
import rampwright.acquisition.map.SerialSettings;

/** The library's view of a serial port, with reads that end at one deadline. */
final class DeadlineSerial extends AbstractSerialConnection {
  private static final long LOOK_AGAIN_NS = 200_000;

  private final SerialSettings settings;
  private final SerialWire wire;
  private final Timekeeper time;
  private long deadlineNs;
  private long received;
  private boolean gone;

  DeadlineSerial(SerialSettings settings, SerialWire wire, Timekeeper time) {
    this.settings = settings;
    this.wire = wire;
    this.time = time;
  }

  /** All reads from here on end at that instant; counts bytes from 0 again. */
  void until(long atNs) {
    deadlineNs = atNs;
    received = 0;
    gone = false;
  }

  /** Bytes received since the deadline was set. */
  long received() {
    return received;
  }

  /** Whether the port went away since the deadline was set. */
  boolean isGone() {
    return gone;
  }

  /** Throws away what comes until the line has been quiet for so long, or until the deadline. */
  void drain(long quietNs, long untilNs) {
    byte[] rest = new byte[256];
    long heardNs = time.nanos();
    long now = heardNs;
    while (now < untilNs && now - heardNs < quietNs) {
      int available = wire.available();
      if (available < 0) {
        return;
      }
      if (available > 0) {
        wire.read(rest, Math.min(available, rest.length));
        heardNs = time.nanos();
      } else {
        LockSupport.parkNanos(this, LOOK_AGAIN_NS);
      }
      now = time.nanos();
    }
  }

  /** Whether anything comes within a time; it is left on the line. */
  boolean hearsWithin(long waitNs) {
    long untilNs = time.nanos() + waitNs;
    while (wire.available() == 0) {
      if (time.nanos() >= untilNs) {
        return false;
      }
      LockSupport.parkNanos(this, LOOK_AGAIN_NS);
    }
    return wire.available() > 0;
  }

  @Override
  public void open() throws IOException {
    wire.open();
  }

  @Override
  public AbstractModbusTransport getModbusTransport() {
    throw new UnsupportedOperationException("the transport holds the port, not the other way");
  }

  @Override
  public int readBytes(byte[] buffer, int wanted) {
    int had = 0;
    byte[] piece = new byte[wanted];
    while (had < wanted) {
      int available = wire.available();
      if (available < 0) {
        gone = true;
        return had;
      }
      if (available > 0) {
        int count = wire.read(piece, Math.min(available, wanted - had));
        if (count <= 0) {
          gone = count < 0;
          return had;
        }
        System.arraycopy(piece, 0, buffer, had, count);
        had += count;
        received += count;
      } else if (time.nanos() >= deadlineNs) {
        return had;
      } else {
        LockSupport.parkNanos(this, LOOK_AGAIN_NS);
      }
    }
    return had;
  }

  @Override
  public int writeBytes(byte[] buffer, int count) {
    int written = wire.write(buffer, count);
    gone |= written < count;
    return written;
  }

  @Override
  public int bytesAvailable() {
    return Math.max(0, wire.available());
  }

  @Override
  public void close() {
    wire.close();
  }

  @Override
  public int getBaudRate() {
    return settings.baud();
  }

  @Override
  public int getNumDataBits() {
    return settings.dataBits();
  }

  @Override
  public int getNumStopBits() {
    return settings.stopBits();
  }

  @Override
  public int getParity() {
    return switch (settings.parity()) {
      case NONE -> NO_PARITY;
      case EVEN -> EVEN_PARITY;
      case ODD -> ODD_PARITY;
    };
  }

  @Override
  public String getPortName() {
    return settings.port();
  }

  @Override
  public String getDescriptivePortName() {
    return settings.port();
  }

  @Override
  public void setComPortTimeouts(int mode, int readTimeout, int writeTimeout) {
    // The deadline rules.
  }

  @Override
  public boolean isOpen() {
    return wire.isOpen();
  }

  @Override
  public int getTimeout() {
    return 0;
  }

  @Override
  public void setTimeout(int timeout) {
    // The deadline rules.
  }

  @Override
  public Set<String> getCommPorts() {
    return Set.of();
  }
}
