package rampwright.acquisition.file;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;

/**
 * Lines of a part of a file, one after the other, as bytes in a buffer that is used again. Ends
 * with CR LF, LF or CR.
 */
final class ComtradeLines implements AutoCloseable {
  private static final int CHUNK = 1 << 20;

  private final FileChannel channel;
  private final String name;
  private final int longestLine;
  private final long end;
  private byte[] buffer;
  private int filled;
  private int from;
  private int to;
  private int next;
  private long position;
  private long number;
  private boolean terminated;

  /**
   * Lines of {@code file} between two offsets.
   *
   * @param linesBefore number of lines before the part, for messages
   * @param longestLine bytes a line may have
   */
  ComtradeLines(Path file, String name, long start, long end, long linesBefore, int longestLine)
      throws IOException {
    this.channel = FileChannel.open(file, StandardOpenOption.READ);
    this.buffer = new byte[(int) Math.max(1, Math.min(CHUNK, end - start))];
    this.name = name;
    this.position = start;
    this.end = end;
    this.number = linesBefore;
    this.longestLine = longestLine;
  }

  /** Goes to the next line; false when there is none. */
  boolean next() throws IOException, TraceFileException {
    from = next;
    int look = next;
    while (true) {
      while (look < filled && buffer[look] != '\n' && buffer[look] != '\r') {
        look++;
      }
      if (look + 1 < filled || (look < filled && buffer[look] == '\n')) {
        to = look;
        next = buffer[look] == '\r' && buffer[look + 1] == '\n' ? look + 2 : look + 1;
        terminated = true;
        number++;
        return true;
      }
      if (look - from > longestLine) {
        throw new TraceFileException(
            name,
            number + 1,
            0,
            "the line has more than "
                + longestLine
                + " bytes; expected a record of numbers with commas; check that the data are text"
                + " (ASCII) as the configuration says",
            null);
      }
      int shift = from;
      if (!fill()) {
        look -= shift;
        to = Math.min(look, filled);
        next = filled;
        terminated = to < filled;
        if (from == filled) {
          return false;
        }
        number++;
        return true;
      }
      look -= shift;
    }
  }

  /** Moves what is left to the front and reads on; false at the end. */
  private boolean fill() throws IOException {
    System.arraycopy(buffer, from, buffer, 0, filled - from);
    filled -= from;
    from = 0;
    if (filled == buffer.length) {
      buffer = Arrays.copyOf(buffer, buffer.length * 2);
    }
    long room = Math.min(buffer.length - filled, end - position);
    if (room <= 0) {
      return false;
    }
    int got = channel.read(ByteBuffer.wrap(buffer, filled, (int) room), position);
    if (got <= 0) {
      return false;
    }
    filled += got;
    position += got;
    return true;
  }

  byte[] buffer() {
    return buffer;
  }

  /** Index of the line's first byte. */
  int from() {
    return from;
  }

  /** Index after the line's last byte, its end not counted. */
  int to() {
    return to;
  }

  /** Number of the line in its file, from 1. */
  long number() {
    return number;
  }

  /** Offset in the file of the byte after the line and its end. */
  long offsetAfter() {
    return position - filled + next;
  }

  /** False for a last line that is not closed by a line end. */
  boolean isTerminated() {
    return terminated;
  }

  @Override
  public void close() throws IOException {
    channel.close();
  }
}
