package rampwright.acquisition.file;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.DoubleBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.Samples;

/**
 * One channel's numbers while they arrive: in memory, or in a temporary file once told to. The file
 * has no name any more as soon as it is open (or is deleted on close, where the system cannot do
 * that), so nothing is left behind however the program ends.
 */
final class CsvStore implements AutoCloseable {
  /** A mapping holds at most 2^31 - 1 bytes. */
  static final int MOST_ROWS_IN_FILE = Integer.MAX_VALUE / Double.BYTES;

  private static final int BUFFER = 1 << 16;

  private final List<double[]> pieces = new ArrayList<>();
  private final List<Integer> counts = new ArrayList<>();
  private int size;
  private @Nullable FileChannel channel;
  private @Nullable ByteBuffer buffer;

  /** Takes the first {@code count} values. The array is kept; the caller gives it up. */
  void append(double[] values, int count) throws IOException {
    if (channel == null) {
      pieces.add(values);
      counts.add(count);
    } else {
      write(values, count);
    }
    size += count;
  }

  /** Moves what is there to a temporary file, and all that follows. */
  void moveToFile() throws IOException {
    Path file = Files.createTempFile("rampwright-", ".samples");
    try {
      channel =
          FileChannel.open(
              file,
              StandardOpenOption.READ,
              StandardOpenOption.WRITE,
              StandardOpenOption.DELETE_ON_CLOSE);
    } catch (IOException e) {
      Files.deleteIfExists(file);
      throw e;
    }
    buffer = ByteBuffer.allocateDirect(BUFFER).order(ByteOrder.nativeOrder());
    for (int i = 0; i < pieces.size(); i++) {
      write(pieces.get(i), counts.get(i));
      pieces.set(i, new double[0]);
    }
    pieces.clear();
  }

  boolean inFile() {
    return channel != null;
  }

  int size() {
    return size;
  }

  private void write(double[] values, int count) throws IOException {
    FileChannel out = channel;
    ByteBuffer bytes = buffer;
    if (out == null || bytes == null) {
      throw new IllegalStateException("no file is open");
    }
    int from = 0;
    while (from < count) {
      int now = Math.min(count - from, BUFFER / Double.BYTES);
      bytes.clear();
      bytes.asDoubleBuffer().put(values, from, now);
      bytes.limit(now * Double.BYTES);
      while (bytes.hasRemaining()) {
        if (out.write(bytes) <= 0) {
          throw new IOException("the temporary file takes no more bytes");
        }
      }
      from += now;
    }
  }

  /** All that was appended; nothing can be appended afterwards. */
  Samples finish() throws IOException {
    if (channel != null) {
      DoubleBuffer mapped =
          channel
              .map(FileChannel.MapMode.READ_ONLY, 0, (long) size * Double.BYTES)
              .order(ByteOrder.nativeOrder())
              .asDoubleBuffer();
      // The mapping outlives its channel; closing gives the name back.
      channel.close();
      return Samples.owning(mapped);
    }
    if (pieces.size() == 1 && pieces.get(0).length == size) {
      return Samples.owning(pieces.get(0));
    }
    double[] all = new double[size];
    int at = 0;
    for (int i = 0; i < pieces.size(); i++) {
      System.arraycopy(pieces.get(i), 0, all, at, counts.get(i));
      at += counts.get(i);
      pieces.set(i, new double[0]);
    }
    pieces.clear();
    return Samples.owning(all);
  }

  @Override
  public void close() {
    try {
      if (channel != null) {
        channel.close();
      }
    } catch (IOException e) {
      // The system removes the file with the process; nothing else can be done here.
      channel = null;
    }
  }
}
