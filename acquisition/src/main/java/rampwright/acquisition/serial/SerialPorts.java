package rampwright.acquisition.serial;

import com.fazecast.jSerialComm.SerialPort;
import com.fazecast.jSerialComm.SerialPortInvalidPortException;
import java.io.IOException;
import rampwright.acquisition.map.SerialSettings;

/** Opens serial ports of this machine. */
public final class SerialPorts {
  private SerialPorts() {}

  /**
   * An open port, without flow control.
   *
   * @param timeoutMode of the serial library
   * @param readTimeoutMs meaning depends on the mode
   * @throws IOException when it cannot be had: why, and what to look at
   */
  public static SerialPort open(SerialSettings settings, int timeoutMode, int readTimeoutMs)
      throws IOException {
    SerialPort port;
    try {
      port = SerialPort.getCommPort(settings.port());
    } catch (SerialPortInvalidPortException e) {
      throw new IOException(
          "there is no serial port " + settings.port() + "; is the adapter plugged in?", e);
    }
    port.setComPortParameters(
        settings.baud(),
        settings.dataBits(),
        settings.stopBits() == 2 ? SerialPort.TWO_STOP_BITS : SerialPort.ONE_STOP_BIT,
        switch (settings.parity()) {
          case NONE -> SerialPort.NO_PARITY;
          case EVEN -> SerialPort.EVEN_PARITY;
          case ODD -> SerialPort.ODD_PARITY;
        });
    port.setFlowControl(SerialPort.FLOW_CONTROL_DISABLED);
    port.setComPortTimeouts(timeoutMode, readTimeoutMs, 0);
    if (!port.openPort(0)) {
      port.closePort();
      throw new IOException(
          "serial port "
              + settings.port()
              + " cannot be opened; is another program using it, and may this user?");
    }
    return port;
  }
}
