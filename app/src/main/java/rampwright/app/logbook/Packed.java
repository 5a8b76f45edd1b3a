package rampwright.app.logbook;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.zip.DeflaterOutputStream;
import java.util.zip.InflaterInputStream;

/** Files, made small. */
final class Packed {
  /** More than any file that is entered; a packed one that grows beyond it was not entered here. */
  private static final int MOST_BYTES = 80 << 20;

  private Packed() {}

  static byte[] of(byte[] plain) {
    ByteArrayOutputStream small = new ByteArrayOutputStream();
    try (DeflaterOutputStream out = new DeflaterOutputStream(small)) {
      out.write(plain);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return small.toByteArray();
  }

  /**
   * The file again.
   *
   * @throws IOException where the bytes are damaged or swell beyond every file that is kept
   */
  static byte[] plain(byte[] packed) throws IOException {
    try (InflaterInputStream in = new InflaterInputStream(new ByteArrayInputStream(packed))) {
      byte[] plain = in.readNBytes(MOST_BYTES + 1);
      if (plain.length > MOST_BYTES) {
        throw new IOException("more than " + MOST_BYTES + " bytes");
      }
      return plain;
    }
  }
}
