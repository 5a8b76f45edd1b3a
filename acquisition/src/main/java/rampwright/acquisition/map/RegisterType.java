package rampwright.acquisition.map;

/** What the bits of one or more registers mean. */
public enum RegisterType {
  U16("u16", 1),
  I16("i16", 1),
  U32("u32", 2),
  I32("i32", 2),
  F32("f32", 2),
  F64("f64", 4),
  BIT("bit", 1);

  private final String key;
  private final int words;

  RegisterType(String key, int words) {
    this.key = key;
    this.words = words;
  }

  /** Word in map files. */
  public String key() {
    return key;
  }

  /** Registers (16 bits each) it takes; a bit counts as one. */
  public int words() {
    return words;
  }

  /** Whether the bits are a floating-point number (IEEE 754). */
  public boolean isFloat() {
    return this == F32 || this == F64;
  }
}
