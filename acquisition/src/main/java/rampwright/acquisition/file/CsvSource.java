package rampwright.acquisition.file;

import java.io.Closeable;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.io.PushbackInputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.GZIPInputStream;
import java.util.zip.ZipException;

/**
 * The text of a file as bytes: unpacked, its byte-order mark taken off, UTF-16 turned into UTF-8.
 * The digest is of the file's bytes as stored.
 */
final class CsvSource implements Closeable {
  private static final int LOOKED_AT = 1 << 16;
  private static final int BUFFER = 1 << 16;

  private final String file;
  private final CsvHashing raw;
  private final InputStream text;
  private final Charset charset;
  private final String encoding;
  private final List<String> warnings = new ArrayList<>();
  private long delivered;

  private CsvSource(
      String file, CsvHashing raw, InputStream text, Charset charset, String encoding) {
    this.file = file;
    this.raw = raw;
    this.text = text;
    this.charset = charset;
    this.encoding = encoding;
  }

  static CsvSource open(Path path) throws TraceFileException {
    String file = path.toString();
    if (Files.isDirectory(path)) {
      throw new TraceFileException(
          file, "is a directory; a trace file was expected; name the file inside it");
    }
    if (Files.exists(path) && !Files.isRegularFile(path)) {
      throw new TraceFileException(
          file, "is not an ordinary file; copy its data into a file and read that");
    }
    try {
      CsvHashing raw = new CsvHashing(Files.newInputStream(path));
      try {
        return opened(file, raw);
      } catch (IOException | TraceFileException e) {
        raw.close();
        throw e;
      }
    } catch (NoSuchFileException e) {
      throw new TraceFileException(file, 0, 0, "there is no such file; check the name", e);
    } catch (AccessDeniedException e) {
      throw new TraceFileException(
          file, 0, 0, "may not be read by this user; ask for permission or copy the file", e);
    } catch (IOException e) {
      throw new TraceFileException(
          file, 0, 0, "cannot be read: " + reason(e) + "; copy the file anew and try again", e);
    }
  }

  private static CsvSource opened(String file, CsvHashing raw)
      throws IOException, TraceFileException {
    PushbackInputStream stored = new PushbackInputStream(raw, LOOKED_AT);
    byte[] magic = stored.readNBytes(4);
    stored.unread(magic);
    boolean packed = magic.length > 1 && magic[0] == 0x1f && magic[1] == (byte) 0x8b;
    if (magic.length > 3 && magic[0] == 'P' && magic[1] == 'K' && magic[2] == 3) {
      throw new TraceFileException(
          file, "is a ZIP archive or a spreadsheet, not text; unpack it or export it as CSV");
    }
    InputStream plain = packed ? new GZIPInputStream(stored, BUFFER) : stored;
    byte[] head = new byte[LOOKED_AT];
    int count = readWhatThereIs(plain, head);
    if (count == 0) {
      throw new TraceFileException(
          file,
          packed
              ? "holds no data: the gzip archive is empty or cut off; copy the file anew"
              : "is empty (0 bytes); record or copy it anew");
    }
    int mark = 0;
    Charset charset;
    String encoding;
    if (count >= 3 && head[0] == (byte) 0xef && head[1] == (byte) 0xbb && head[2] == (byte) 0xbf) {
      mark = 3;
      charset = StandardCharsets.UTF_8;
      encoding = "UTF-8 with byte-order mark";
    } else if (count >= 2 && head[0] == (byte) 0xff && head[1] == (byte) 0xfe) {
      mark = 2;
      charset = StandardCharsets.UTF_16LE;
      encoding = "UTF-16 little endian";
    } else if (count >= 2 && head[0] == (byte) 0xfe && head[1] == (byte) 0xff) {
      mark = 2;
      charset = StandardCharsets.UTF_16BE;
      encoding = "UTF-16 big endian";
    } else if (looksLikeUtf16(head, count, 1)) {
      charset = StandardCharsets.UTF_16LE;
      encoding = "UTF-16 little endian, no byte-order mark";
    } else if (looksLikeUtf16(head, count, 0)) {
      charset = StandardCharsets.UTF_16BE;
      encoding = "UTF-16 big endian, no byte-order mark";
    } else {
      boolean utf8 = isUtf8(head, count);
      charset = utf8 ? StandardCharsets.UTF_8 : StandardCharsets.ISO_8859_1;
      encoding = utf8 ? "UTF-8" : "Latin-1";
    }
    // Not pushed back: a read across both parts would lose the first when the second is cut off.
    InputStream all = new Joined(head, mark, count, plain);
    boolean wide =
        charset.equals(StandardCharsets.UTF_16LE) || charset.equals(StandardCharsets.UTF_16BE);
    return new CsvSource(
        file,
        raw,
        wide ? new CsvUtf16Input(all, charset) : all,
        wide ? StandardCharsets.UTF_8 : charset,
        encoding + (packed ? ", gzip" : ""));
  }

  /** What was looked at already, then the rest; no read runs over the joint. */
  private static final class Joined extends InputStream {
    private final byte[] head;
    private final int end;
    private final InputStream rest;
    private int at;

    Joined(byte[] head, int from, int end, InputStream rest) {
      this.head = head;
      this.at = from;
      this.end = end;
      this.rest = rest;
    }

    @Override
    public int read() throws IOException {
      return at < end ? head[at++] & 0xff : rest.read();
    }

    @Override
    public int read(byte[] into, int from, int length) throws IOException {
      if (at == end) {
        return rest.read(into, from, length);
      }
      int count = Math.min(length, end - at);
      System.arraycopy(head, at, into, from, count);
      at += count;
      return count;
    }

    @Override
    public void close() throws IOException {
      rest.close();
    }
  }

  /** Fills what it can; a cut-off archive gives what it still holds. */
  private static int readWhatThereIs(InputStream in, byte[] into) throws IOException {
    int count = 0;
    try {
      while (count < into.length) {
        int got = in.read(into, count, into.length - count);
        if (got < 0) {
          break;
        }
        count += got;
      }
    } catch (EOFException | ZipException e) {
      if (count == 0) {
        throw e;
      }
    }
    return count;
  }

  private static boolean looksLikeUtf16(byte[] head, int count, int zeroAt) {
    int pairs = Math.min(count, 512) / 2;
    int zeros = 0;
    int others = 0;
    for (int i = 0; i < pairs; i++) {
      zeros += head[2 * i + zeroAt] == 0 ? 1 : 0;
      others += head[2 * i + 1 - zeroAt] == 0 ? 1 : 0;
    }
    return pairs >= 4 && zeros > 0.8 * pairs && others == 0;
  }

  private static boolean isUtf8(byte[] head, int count) {
    // A character cut by the end of what was looked at must not spoil the answer.
    int end = count == head.length ? count - 4 : count;
    while (end > 0 && end < count && (head[end] & 0xc0) == 0x80) {
      end--;
    }
    try {
      StandardCharsets.UTF_8
          .newDecoder()
          .onMalformedInput(CodingErrorAction.REPORT)
          .decode(ByteBuffer.wrap(head, 0, end));
      return true;
    } catch (CharacterCodingException e) {
      return false;
    }
  }

  /**
   * Reads until {@code count} bytes are there or the text ends.
   *
   * @return how many were read; less than {@code count} only at the end
   */
  int read(byte[] into, int from, int count) throws TraceFileException {
    int got = 0;
    try {
      while (got < count) {
        int more = text.read(into, from + got, count - got);
        if (more < 0) {
          break;
        }
        got += more;
      }
    } catch (EOFException | ZipException e) {
      String warning =
          "the gzip archive ends early or is damaged ("
              + reason(e)
              + "); what could be unpacked is used";
      if (!warnings.contains(warning)) {
        warnings.add(warning);
      }
    } catch (IOException e) {
      throw new TraceFileException(
          file,
          0,
          0,
          "cannot be read past " + (delivered + got) + " bytes: " + reason(e) + "; copy it anew",
          e);
    }
    delivered += got;
    return got;
  }

  String file() {
    return file;
  }

  /** How header bytes are to be decoded. */
  Charset charset() {
    return charset;
  }

  /** For people. */
  String encoding() {
    return encoding;
  }

  List<String> warnings() {
    return warnings;
  }

  String sha256() throws TraceFileException {
    try {
      return raw.sha256();
    } catch (IOException e) {
      throw new TraceFileException(
          file, 0, 0, "cannot be read: " + reason(e) + "; copy it anew", e);
    }
  }

  private static String reason(IOException e) {
    if (e instanceof EOFException) {
      return "it ends early";
    }
    String message = e.getMessage();
    return message == null || message.isBlank() ? "input or output failed" : message;
  }

  @Override
  public void close() {
    try {
      text.close();
      raw.close();
    } catch (IOException e) {
      // Nothing was written; a failing close of a file only read loses nothing.
      warnings.add("closing: " + reason(e));
    }
  }
}
