package rampwright.analysis.trace;

import java.util.List;
import java.util.Optional;
import rampwright.analysis.quantity.Quantity;

/** The channels a trace can have, by the names used in files, figures and screens. */
public enum ChannelName {
  I1("i1", Quantity.CURRENT, "L1"),
  I2("i2", Quantity.CURRENT, "L2"),
  I3("i3", Quantity.CURRENT, "L3"),
  V12("v12", Quantity.LINE_VOLTAGE, "L1-L2"),
  V23("v23", Quantity.LINE_VOLTAGE, "L2-L3"),
  V31("v31", Quantity.LINE_VOLTAGE, "L3-L1"),
  V1("v1", Quantity.PHASE_VOLTAGE, "L1"),
  V2("v2", Quantity.PHASE_VOLTAGE, "L2"),
  V3("v3", Quantity.PHASE_VOLTAGE, "L3"),
  SPEED("speed", Quantity.SPEED, ""),
  TORQUE("torque", Quantity.TORQUE, ""),
  POWER("power", Quantity.POWER, ""),
  RUN("run", Quantity.RUN, ""),
  PRESSURE("pressure", Quantity.PRESSURE, "");

  /** The phase currents in order. */
  public static final List<ChannelName> CURRENTS = List.of(I1, I2, I3);

  /** The line-to-line voltages in order. */
  public static final List<ChannelName> LINE_VOLTAGES = List.of(V12, V23, V31);

  /** The phase voltages in order. */
  public static final List<ChannelName> PHASE_VOLTAGES = List.of(V1, V2, V3);

  private final String key;
  private final Quantity quantity;
  private final String phase;

  ChannelName(String key, Quantity quantity, String phase) {
    this.key = key;
    this.quantity = quantity;
    this.phase = phase;
  }

  /** Name in files and on screens, for example {@code i1}. */
  public String key() {
    return key;
  }

  public Quantity quantity() {
    return quantity;
  }

  /** Phase or line label ("L1", "L1-L2"); empty where the channel has none. */
  public String phase() {
    return phase;
  }

  /** Column name in a canonical CSV file, for example {@code i1_A}; {@code run} has no unit. */
  public String column() {
    return switch (quantity) {
      case RUN -> key;
      case TORQUE -> key + "_Nm";
      default -> key + "_" + quantity.unit();
    };
  }

  /** The channel of that key, if there is one. */
  public static Optional<ChannelName> ofKey(String key) {
    for (ChannelName name : values()) {
      if (name.key.equals(key)) {
        return Optional.of(name);
      }
    }
    return Optional.empty();
  }
}
