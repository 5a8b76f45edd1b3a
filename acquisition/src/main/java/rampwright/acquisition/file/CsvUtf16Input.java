package rampwright.acquisition.file;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;

/** UTF-16 text as UTF-8 bytes, so that one parser serves both. */
final class CsvUtf16Input extends InputStream {
  private static final int CHARS = 8192;

  private final Reader reader;
  private final char[] chars = new char[CHARS + 1];
  private int kept;
  private byte[] bytes = new byte[0];
  private int at;

  CsvUtf16Input(InputStream in, Charset charset) {
    this.reader = new InputStreamReader(in, charset);
  }

  @Override
  public int read() throws IOException {
    byte[] one = new byte[1];
    return read(one, 0, 1) < 0 ? -1 : one[0] & 0xff;
  }

  @Override
  public int read(byte[] into, int from, int count) throws IOException {
    while (at == bytes.length) {
      int got = reader.read(chars, kept, CHARS - kept);
      if (got < 0) {
        return -1;
      }
      int end = kept + got;
      // Half of a surrogate pair waits for its other half.
      kept = Character.isHighSurrogate(chars[end - 1]) ? 1 : 0;
      bytes = new String(chars, 0, end - kept).getBytes(StandardCharsets.UTF_8);
      chars[0] = chars[end - 1];
      at = 0;
    }
    int given = Math.min(count, bytes.length - at);
    System.arraycopy(bytes, at, into, from, given);
    at += given;
    return given;
  }

  @Override
  public void close() throws IOException {
    reader.close();
  }
}
