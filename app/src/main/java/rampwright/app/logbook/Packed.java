package rampwright.app.logbook;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.zip.DeflaterOutputStream;
import java.util.zip.InflaterInputStream;

/** Traces, made small. */
final class Packed {
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
   * The trace again.
   *
   * @throws IOException where the bytes are damaged
   */
  static byte[] plain(byte[] packed) throws IOException {
    try (InflaterInputStream in = new InflaterInputStream(new ByteArrayInputStream(packed))) {
      return in.readAllBytes();
    }
  }
}
