package rampwright.acquisition.map;

import rampwright.acquisition.toml.NumberKey;

/** The numbers of a channel map with their ranges. */
public final class MapKeys {
  public static final NumberKey TCP_PORT =
      new NumberKey("tcp_port", "", 1, 65535, "the device's TCP port, 502 unless it says so", "");
  public static final NumberKey UNIT =
      new NumberKey(
          "unit",
          "",
          0,
          255,
          "the device's Modbus unit id (slave address)",
          "a quoted unit" + " such as \"A\" belongs to a [[channel]]");
  public static final NumberKey POLL_HZ =
      new NumberKey("poll_hz", "Hz", 0.01, 1000, "how often it is read", "");
  public static final NumberKey TIMEOUT_MS =
      new NumberKey("timeout_ms", "ms", 5, 60_000, "how long an answer may take", "");
  public static final NumberKey BRIDGE =
      new NumberKey(
          "bridge",
          "",
          0,
          100,
          "how many registers between wanted ones may be read across to save a request",
          "");
  public static final NumberKey BAUD =
      new NumberKey("baud", "", 300, 4_000_000, "bits a second on the line", "");
  public static final NumberKey DATA_BITS =
      new NumberKey("data_bits", "", 7, 8, "data bits of a byte", "");
  public static final NumberKey STOP_BITS =
      new NumberKey("stop_bits", "", 1, 2, "stop bits of a byte", "");
  public static final NumberKey SPEED =
      new NumberKey("speed", "", 1, 1000, "how many times real time the file is played", "");
  public static final NumberKey FUNCTION =
      new NumberKey(
          "function",
          "",
          1,
          4,
          "1 coils, 2 discrete inputs, 3 holding registers, 4 input registers",
          "other functions write or configure, and this program only reads");
  public static final NumberKey ADDRESS =
      new NumberKey(
          "address",
          "",
          0,
          65535,
          "the protocol address from 0",
          "a register number such as 40101 in a manual is function 3, address 100");
  public static final NumberKey SCALE =
      new NumberKey("scale", "", -1e9, 1e9, "value = register x scale + offset", "");
  public static final NumberKey OFFSET =
      new NumberKey("offset", "", -1e12, 1e12, "value = register x scale + offset", "");
  public static final NumberKey NO_READING =
      new NumberKey("no_reading", "", -1e300, 1e300, "the raw number that means no reading", "");
  public static final NumberKey FIELD =
      new NumberKey("field", "", 1, 100, "which field of the line, from 1", "");

  private MapKeys() {}
}
