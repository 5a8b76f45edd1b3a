package rampwright.acquisition.serial;

import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.Queue;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.device.LinePort;

/**
 * Bytes to lines, whatever pieces they come in. A line longer than allowed is thrown away whole.
 */
final class LineSplitter {
  private final byte[] end;
  private final int longest;
  private final byte[] line;
  private int size;
  private long beganNs;
  private boolean tooLong;
  private int overrun;
  private final Queue<LinePort.Line> lines = new ArrayDeque<>();

  LineSplitter(String terminator, int longest) {
    this.end = terminator.getBytes(StandardCharsets.ISO_8859_1);
    this.longest = longest;
    this.line = new byte[longest + end.length];
  }

  /**
   * Takes bytes.
   *
   * @param atNs when the last of them came
   * @param byteNs how long one takes on the line
   */
  void take(byte[] bytes, int count, long atNs, long byteNs) {
    for (int i = 0; i < count; i++) {
      if (size == 0 && !tooLong) {
        beganNs = atNs - (count - 1 - i) * byteNs;
      }
      if (size == line.length) {
        tooLong = true;
        // Only what could be the terminator's beginning is kept.
        System.arraycopy(line, size - end.length + 1, line, 0, end.length - 1);
        size = end.length - 1;
      }
      line[size++] = bytes[i];
      if (isEnded()) {
        if (tooLong) {
          overrun++;
        } else {
          lines.add(
              new LinePort.Line(
                  new String(line, 0, size - end.length, StandardCharsets.ISO_8859_1), beganNs));
        }
        size = 0;
        tooLong = false;
      }
    }
  }

  private boolean isEnded() {
    if (size < end.length) {
      return false;
    }
    for (int i = 0; i < end.length; i++) {
      if (line[size - end.length + i] != end[i]) {
        return false;
      }
    }
    return true;
  }

  /** The next whole line; null when there is none. */
  LinePort.@Nullable Line next() {
    return lines.poll();
  }

  /** How many lines were too long since last asked. */
  int overruns() {
    int count = overrun;
    overrun = 0;
    return count;
  }

  /** The longest line allowed, bytes. */
  int longest() {
    return longest;
  }

  /** Forgets half a line. */
  void reset() {
    size = 0;
    tooLong = false;
    lines.clear();
  }
}
