package rampwright.acquisition.file;

import java.util.Locale;
import java.util.Optional;

/** How the numbers of a COMTRADE data file are written. */
public enum ComtradeEncoding {
  /** Lines of numbers with commas. */
  ASCII(0),
  /** Little-endian 16 bit integers. */
  BINARY(2),
  /** Little-endian 32 bit integers; since 2013. */
  BINARY32(4),
  /** Little-endian IEEE 754 single precision; since 2013. */
  FLOAT32(4);

  private final int analogBytes;

  ComtradeEncoding(int analogBytes) {
    this.analogBytes = analogBytes;
  }

  /** Bytes of one analog value; 0 for text. */
  int analogBytes() {
    return analogBytes;
  }

  /** Bytes of a record: number and stamp, analog values, status bits in words of 16. */
  long recordBytes(int analogs, int statuses) {
    return 8L + (long) analogs * analogBytes + 2L * ((statuses + 15L) / 16);
  }

  /** The encoding of that name in any case, if there is one. */
  static Optional<ComtradeEncoding> of(String word) {
    String upper = word.strip().toUpperCase(Locale.ROOT);
    for (ComtradeEncoding encoding : values()) {
      if (encoding.name().equals(upper)) {
        return Optional.of(encoding);
      }
    }
    return Optional.empty();
  }
}
