package rampwright.acquisition.file;

import java.util.OptionalDouble;
import rampwright.analysis.quantity.Quantity;

/** Units a channel can be given in, by the same table that trace files are read with. */
public final class ChannelUnit {
  private ChannelUnit() {}

  /**
   * What turns a number in {@code unit} into the program's unit of the quantity; empty when the
   * unit is unknown or measures something else. A run command has no unit.
   */
  public static OptionalDouble factor(Quantity quantity, String unit) {
    UnitTable.Dimension wanted =
        switch (quantity) {
          case CURRENT -> UnitTable.Dimension.CURRENT;
          case LINE_VOLTAGE, PHASE_VOLTAGE -> UnitTable.Dimension.VOLTAGE;
          case SPEED -> UnitTable.Dimension.SPEED;
          case TORQUE -> UnitTable.Dimension.TORQUE;
          case POWER -> UnitTable.Dimension.POWER;
          case PRESSURE -> UnitTable.Dimension.PRESSURE;
          case RUN -> UnitTable.Dimension.OTHER;
        };
    if (quantity == Quantity.RUN) {
      return unit.isEmpty() ? OptionalDouble.of(1) : OptionalDouble.empty();
    }
    UnitTable.Unit found = UnitTable.find(unit);
    return found == null || found.dimension() != wanted
        ? OptionalDouble.empty()
        : OptionalDouble.of(found.factor());
  }
}
