package rampwright.acquisition.file;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.UnitTable.Dimension;
import rampwright.acquisition.file.UnitTable.Unit;
import rampwright.analysis.trace.ChannelName;

/** From the unit of a file to the unit of a channel. */
final class ColumnUnits {
  private ColumnUnits() {}

  /**
   * A factor, or why there is none.
   *
   * @param factor NaN when there is none
   * @param remark with a factor: what was assumed; without: what is wrong and what to do
   */
  record Conversion(double factor, String remark) {
    boolean isKnown() {
      return !Double.isNaN(factor);
    }
  }

  static Conversion convert(ChannelName channel, Unit unit, ReadContext context) {
    return convert(channel, unit, context, false);
  }

  /** As above; {@code rotation} says that the name of a column in hertz speaks of turns. */
  static Conversion convert(ChannelName channel, Unit unit, ReadContext context, boolean rotation) {
    String target = channel.quantity().unit();
    if (unit.dimension() == dimension(channel)) {
      return new Conversion(unit.factor(), "");
    }
    if (unit.dimension() == Dimension.RATIO) {
      Double rated = rated(channel, context);
      if (rated != null) {
        return new Conversion(
            unit.factor() * rated,
            String.format(Locale.ROOT, "of rated %s %s", CsvTimeAxis.number(rated), target));
      }
      return none(
          "is in "
              + unit.symbol()
              + "; the rated value it refers to is not known; name the asset, or give a scale");
    }
    if (unit.dimension() == Dimension.FREQUENCY && channel == ChannelName.SPEED) {
      if (rotation) {
        return new Conversion(unit.factor(), "turns per second by its name");
      }
      Integer pairs = context.polePairs();
      if (pairs != null && pairs > 0) {
        return new Conversion(
            unit.factor() / pairs, "electrical frequency with " + pairs + " pole pairs");
      }
      return none(
          "is in "
              + unit.symbol()
              + ", which may be turns per second or electrical frequency; name the asset, or give"
              + " scale = 60 for turns per second");
    }
    if (channel == ChannelName.RUN) {
      return new Conversion(1, "");
    }
    return none(
        "is in "
            + unit.symbol()
            + ", "
            + channel.key()
            + " is in "
            + target
            + "; give scale ("
            + target
            + " per "
            + unit.symbol()
            + ")");
  }

  private static Conversion none(String why) {
    return new Conversion(Double.NaN, why);
  }

  static Dimension dimension(ChannelName channel) {
    return switch (channel.quantity()) {
      case CURRENT -> Dimension.CURRENT;
      case LINE_VOLTAGE, PHASE_VOLTAGE -> Dimension.VOLTAGE;
      case SPEED -> Dimension.SPEED;
      case TORQUE -> Dimension.TORQUE;
      case POWER -> Dimension.POWER;
      case RUN -> Dimension.OTHER;
      case PRESSURE -> Dimension.PRESSURE;
    };
  }

  private static @Nullable Double rated(ChannelName channel, ReadContext context) {
    Double voltage = context.ratedVoltageV();
    return switch (channel.quantity()) {
      case CURRENT -> context.ratedCurrentA();
      case LINE_VOLTAGE -> voltage;
      case PHASE_VOLTAGE -> voltage == null ? null : Double.valueOf(voltage / Math.sqrt(3));
      case SPEED -> context.ratedSpeedRpm();
      case TORQUE -> context.ratedTorqueNm();
      case POWER -> context.ratedPowerW();
      case RUN, PRESSURE -> null;
    };
  }
}
