package rampwright.acquisition.map;

/**
 * How a number lies in registers.
 *
 * <p>Shape: words are 0 to 65535, in the order of their addresses. Modbus sends the high byte of a
 * register first (Application Protocol V1.1b3, 4.2) and says nothing of numbers longer than a
 * register; so both orders are a matter of the device.
 *
 * @param type what the bits mean
 * @param highWordFirst whether the register at the lowest address holds the highest bits
 * @param highByteFirst whether a register's first byte on the wire is its high byte, as the
 *     protocol wants it; false for devices that swap them
 */
public record RegisterForm(RegisterType type, boolean highWordFirst, boolean highByteFirst) {

  /** The bits of the words as one number, right-aligned. */
  public long bits(int[] words) {
    if (words.length != type.words()) {
      throw new IllegalArgumentException(
          type.key() + " takes " + type.words() + " registers, not " + words.length);
    }
    long bits = 0;
    for (int i = 0; i < words.length; i++) {
      int word = words[highWordFirst ? i : words.length - 1 - i] & 0xffff;
      bits = (bits << 16) | (highByteFirst ? word : swapped(word));
    }
    return bits;
  }

  /** The number the words stand for, before scale and offset; NaN where a float says so. */
  public double decode(int... words) {
    return decodeBits(bits(words));
  }

  /** The number the bits of {@link #bits} stand for. */
  public double decodeBits(long bits) {
    return switch (type) {
      case U16, U32 -> bits;
      case BIT -> bits == 0 ? 0 : 1;
      case I16 -> (short) bits;
      case I32 -> (int) bits;
      case F32 -> Float.intBitsToFloat((int) bits);
      case F64 -> Double.longBitsToDouble(bits);
    };
  }

  /**
   * The words that stand for a number; whole types round to the nearest and stop at the ends of
   * their range.
   */
  public int[] encode(double value) {
    long bits =
        switch (type) {
          case BIT -> value == 0 ? 0 : 1;
          case U16 -> clamp(value, 0, 0xffffL);
          case U32 -> clamp(value, 0, 0xffff_ffffL);
          case I16 -> clamp(value, Short.MIN_VALUE, Short.MAX_VALUE);
          case I32 -> clamp(value, Integer.MIN_VALUE, Integer.MAX_VALUE);
          case F32 -> Float.floatToRawIntBits((float) value);
          case F64 -> Double.doubleToRawLongBits(value);
        };
    int[] words = new int[type.words()];
    for (int i = 0; i < words.length; i++) {
      int word = (int) (bits >> (16 * (words.length - 1 - i))) & 0xffff;
      words[highWordFirst ? i : words.length - 1 - i] = highByteFirst ? word : swapped(word);
    }
    return words;
  }

  private static long clamp(double value, long low, long high) {
    return Math.max(low, Math.min(high, Math.round(value)));
  }

  private static int swapped(int word) {
    return ((word & 0xff) << 8) | ((word >> 8) & 0xff);
  }
}
