package rampwright.acquisition.file;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;

/** Finds the ends of cells and lines in a block of bytes. One instance is used by one thread. */
final class CsvBytes {
  private final byte separator;
  private final byte lineEnd;
  private final boolean blanks;
  private byte[] bytes = new byte[0];

  CsvBytes(CsvDialect dialect) {
    separator = (byte) dialect.separator();
    lineEnd = (byte) dialect.lineEnd();
    blanks = dialect.blanks();
  }

  /** The bytes all places are in; a line end follows every place asked for. */
  void in(byte[] text) {
    bytes = text;
  }

  /** First place at or behind {@code from} that is no blank. */
  int skipBlanks(int from) {
    int at = from;
    while (bytes[at] == ' ' || bytes[at] == '\t' || (bytes[at] == '\r' && lineEnd != '\r')) {
      at++;
    }
    return at;
  }

  /** End of the cell that starts at {@code from}: the separator or the end of the line. */
  int skipCell(int from) {
    int at = from;
    byte[] text = bytes;
    byte stop = lineEnd;
    byte part = separator;
    if (text[at] == '"') {
      at++;
      while (text[at] != stop && (text[at] != '"' || text[at + 1] == '"')) {
        at += text[at] == '"' ? 2 : 1;
      }
    }
    if (blanks) {
      while (text[at] != ' ' && text[at] != '\t' && text[at] != stop) {
        at++;
      }
      return at;
    }
    while (text[at] != part && text[at] != stop) {
      at++;
    }
    return at;
  }

  int lineEndFrom(int from) {
    int at = from;
    while (bytes[at] != lineEnd) {
      at++;
    }
    return at;
  }

  boolean isEmptyRow(int from, int to) {
    for (int i = from; i < to; i++) {
      byte c = bytes[i];
      if (c != separator && c != ' ' && c != '\t' && c != '\r' && c != lineEnd) {
        return false;
      }
    }
    return true;
  }

  boolean isEndMark(int at) {
    return bytes[at] == '\r' && bytes[at + 1] == lineEnd;
  }

  /** Cell number {@code column}, 0 based, of the line from {@code from}; the last where fewer. */
  String cellOf(int from, int column) {
    int at = from;
    for (int i = 0; ; i++) {
      if (blanks) {
        at = skipBlanks(at);
      }
      int end = skipCell(at);
      if (i == column || bytes[end] == lineEnd) {
        return decoded(at, end).strip();
      }
      at = blanks ? end : end + 1;
    }
  }

  /** The cell without outer blanks and quotes. */
  String unquoted(int from, int end) {
    String cell = decoded(from, end).strip();
    if (cell.length() > 1 && cell.charAt(0) == '"' && cell.charAt(cell.length() - 1) == '"') {
      return cell.substring(1, cell.length() - 1).replace("\"\"", "\"").strip();
    }
    return cell;
  }

  /** Text of plain bytes. */
  String plain(int from, int end) {
    return new String(bytes, from, end - from, StandardCharsets.ISO_8859_1);
  }

  /** Text in UTF-8 where it is that, else in Latin-1; minus signs and blanks made plain. */
  String decoded(int from, int end) {
    for (int i = from; i < end; i++) {
      if (bytes[i] < 0) {
        return wide(from, end).replace('\u2212', '-').replace('\u202f', ' ').replace('\u00a0', ' ');
      }
    }
    return plain(from, end);
  }

  private String wide(int from, int end) {
    try {
      return StandardCharsets.UTF_8
          .newDecoder()
          .decode(ByteBuffer.wrap(bytes, from, end - from))
          .toString();
    } catch (CharacterCodingException e) {
      return plain(from, end);
    }
  }
}
