package rampwright.acquisition.file;

import java.io.IOException;
import java.io.OutputStream;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;

/** Numbers as decimal text in a growing buffer of bytes. */
final class CsvNumberText {
  private static final double[] TEN = {
    1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12
  };
  private static final double EXACT = 1L << 53;

  private byte[] bytes = new byte[1 << 17];
  private int size;
  private int likely;

  int size() {
    return size;
  }

  void append(char c) {
    room(1);
    bytes[size++] = (byte) c;
  }

  /**
   * Appends a number; nothing for NaN.
   *
   * @param decimals decimals to round to, or {@link CsvTraceWriter#SHORTEST}
   */
  void append(double value, int decimals) {
    room(64);
    if (Double.isNaN(value)) {
      return;
    }
    if (decimals >= 0) {
      text(
          Double.isInfinite(value)
              ? Double.toString(value)
              : new BigDecimal(value).setScale(decimals, RoundingMode.HALF_EVEN).toPlainString());
      return;
    }
    if (!shortest(value)) {
      text(Double.toString(value));
    }
  }

  /** The fewest decimals whose quotient is the number; that quotient is what a reader computes. */
  private boolean shortest(double value) {
    double size = Math.abs(value);
    int from = fits(size, likely) && likely > 0 && !fits(size, likely - 1) ? likely : 0;
    for (int decimals = from; decimals < TEN.length && size * TEN[decimals] < EXACT; decimals++) {
      if (fits(size, decimals)) {
        likely = decimals;
        if (value < 0 || (value == 0 && 1 / value < 0)) {
          bytes[this.size++] = '-';
        }
        digits((long) Math.rint(size * TEN[decimals]), decimals);
        return true;
      }
    }
    return false;
  }

  private static boolean fits(double size, int decimals) {
    return Math.rint(size * TEN[decimals]) / TEN[decimals] == size;
  }

  private void digits(long number, int decimals) {
    int length = Math.max(decimals + 1, lengthOf(number));
    int end = size + length + (decimals > 0 ? 1 : 0);
    long rest = number;
    int at = end;
    for (int i = 0; i < length; i++) {
      if (i == decimals && decimals > 0) {
        bytes[--at] = '.';
      }
      bytes[--at] = (byte) ('0' + rest % 10);
      rest /= 10;
    }
    size = end;
  }

  private static int lengthOf(long number) {
    int length = 1;
    for (long rest = number; rest >= 10; rest /= 10) {
      length++;
    }
    return length;
  }

  private void text(String text) {
    byte[] plain = text.getBytes(StandardCharsets.US_ASCII);
    room(plain.length);
    System.arraycopy(plain, 0, bytes, size, plain.length);
    size += plain.length;
  }

  private void room(int more) {
    if (size + more > bytes.length) {
      bytes = Arrays.copyOf(bytes, bytes.length * 2 + more);
    }
  }

  void drainTo(OutputStream out) throws IOException {
    out.write(bytes, 0, size);
    size = 0;
  }
}
