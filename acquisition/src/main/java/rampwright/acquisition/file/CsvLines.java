package rampwright.acquisition.file;

import java.nio.charset.Charset;
import java.util.ArrayList;
import java.util.List;

/** The lines at the beginning of a file. */
final class CsvLines {
  /**
   * A line, which may run over several lines of the file inside quotes.
   *
   * @param number of the file's line, 1 based
   * @param at where it begins, bytes
   */
  record Line(int number, int at, String text) {}

  private CsvLines() {}

  static char lineEnd(byte[] bytes, int count) {
    boolean carriage = false;
    for (int i = 0; i < count; i++) {
      if (bytes[i] == '\n') {
        return '\n';
      }
      carriage |= bytes[i] == '\r';
    }
    return carriage ? '\r' : '\n';
  }

  static void refuseBinary(String file, byte[] bytes, int count) throws TraceFileException {
    int control = 0;
    int line = 1;
    int firstLine = 0;
    for (int i = 0; i < count; i++) {
      byte b = bytes[i];
      line += b == '\n' ? 1 : 0;
      if (b >= 0 && b < ' ' && b != '\t' && b != '\n' && b != '\r' && b != '\f') {
        firstLine = control == 0 ? line : firstLine;
        control++;
      }
    }
    if (control > 0.01 * count + 2) {
      throw new TraceFileException(
          file,
          firstLine,
          0,
          "holds bytes that are not text ("
              + control
              + " in the first "
              + count
              + "); a table in a text file was expected; export the recording as CSV",
          null);
    }
  }

  static List<Line> of(byte[] bytes, int count, boolean whole, char lineEnd, Charset charset) {
    List<Line> lines = new ArrayList<>();
    int number = 1;
    int at = 0;
    while (at < count) {
      int end = at;
      while (end < count && bytes[end] != lineEnd) {
        end++;
      }
      if (end == count && !whole) {
        break;
      }
      String text = new String(bytes, at, end - at, charset);
      int next = end + 1;
      int taken = 1;
      // A header from a spreadsheet may break its lines inside quotes.
      while (isOpen(text) && next < count && taken < 5) {
        int more = next;
        while (more < count && bytes[more] != lineEnd) {
          more++;
        }
        String longer = new String(bytes, at, more - at, charset);
        taken++;
        next = more + 1;
        if (!isOpen(longer)) {
          text = longer.replace("\r", "").replace(lineEnd, ' ');
          end = more;
          break;
        }
      }
      lines.add(
          new Line(number, at, text.endsWith("\r") ? text.substring(0, text.length() - 1) : text));
      boolean joined = end > at && next == end + 1 && taken > 1;
      number += joined ? taken : 1;
      at = end + 1;
    }
    return lines;
  }

  private static boolean isOpen(String text) {
    boolean open = false;
    for (int at = text.indexOf('"'); at >= 0; at = text.indexOf('"', at + 1)) {
      open = !open;
    }
    return open;
  }
}
