package rampwright.acquisition.modbus;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.Socket;
import java.net.SocketTimeoutException;
import rampwright.acquisition.device.Timekeeper;

/**
 * A socket whose reads end at one deadline. The library waits anew for each byte, so that a device
 * which sends one byte at a time could hold it for minutes.
 */
final class DeadlineSocket extends Socket {
  private final Timekeeper time;
  private long deadlineNs;
  private long received;

  DeadlineSocket(Timekeeper time) {
    this.time = time;
  }

  /** All reads from here on end at that instant; counts bytes from 0 again. */
  void until(long atNs) {
    deadlineNs = atNs;
    received = 0;
  }

  /** Bytes received since the deadline was set. */
  long received() {
    return received;
  }

  @Override
  public InputStream getInputStream() throws IOException {
    return new FilterInputStream(super.getInputStream()) {
      @Override
      public int read() throws IOException {
        byte[] one = new byte[1];
        return read(one, 0, 1) < 0 ? -1 : one[0] & 0xff;
      }

      @Override
      public int read(byte[] into, int offset, int count) throws IOException {
        long leftMs = (deadlineNs - time.nanos() + 999_999) / 1_000_000;
        if (leftMs <= 0) {
          throw new SocketTimeoutException("deadline");
        }
        setSoTimeout((int) Math.min(leftMs, Integer.MAX_VALUE));
        int had = super.read(into, offset, count);
        received += Math.max(0, had);
        return had;
      }
    };
  }
}
