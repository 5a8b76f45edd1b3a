package rampwright.acquisition.serial;

import com.fazecast.jSerialComm.SerialPort;
import java.io.IOException;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.device.DeviceFault;
import rampwright.acquisition.device.FaultKind;
import rampwright.acquisition.device.LinePort;
import rampwright.acquisition.device.Timekeeper;
import rampwright.acquisition.map.Link;
import rampwright.acquisition.map.SerialSettings;

/** Lines from a serial port of this machine. */
public final class SerialLinePort implements LinePort {
  /** The system's own steps are a tenth of a second. */
  private static final int READ_STEP_MS = 100;

  private final SerialSettings settings;
  private final Timekeeper time;
  private final LineSplitter splitter;
  private final byte[] buffer = new byte[4096];
  private @Nullable SerialPort port;

  /** A port; nothing is opened yet. */
  public SerialLinePort(Link.Lines link, Timekeeper time) {
    this.settings = link.serial();
    this.time = time;
    this.splitter = new LineSplitter(link.form().terminator(), Link.LONGEST_LINE);
  }

  @Override
  public @Nullable Line next(int waitMs) throws DeviceFault {
    long untilNs = time.nanos() + waitMs * 1_000_000L;
    while (true) {
      Line line = splitter.next();
      if (line != null) {
        return line;
      }
      if (splitter.overruns() > 0) {
        throw new DeviceFault(
            FaultKind.GARBAGE, "a line longer than " + splitter.longest() + " bytes");
      }
      SerialPort open = open();
      // Returns with the first bytes that are there, or with none after the step.
      int count = open.readBytes(buffer, buffer.length);
      if (count > 0) {
        splitter.take(buffer, count, time.nanos(), settings.lineTimeNs(1));
      } else if (count < 0 || open.bytesAvailable() < 0) {
        close();
        throw new DeviceFault(
            FaultKind.LOST, "serial port " + settings.port() + " is gone; is the cable in?");
      } else if (time.nanos() >= untilNs) {
        return null;
      }
    }
  }

  private SerialPort open() throws DeviceFault {
    SerialPort open = port;
    if (open != null) {
      return open;
    }
    SerialPort fresh;
    try {
      fresh = SerialPorts.open(settings, SerialPort.TIMEOUT_READ_SEMI_BLOCKING, READ_STEP_MS);
    } catch (IOException e) {
      throw new DeviceFault(FaultKind.UNREACHABLE, String.valueOf(e.getMessage()), e);
    }
    splitter.reset();
    port = fresh;
    return fresh;
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
