package rampwright.acquisition.file;

import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.ColumnTable.Column;
import rampwright.acquisition.file.HeaderMeaning.Word;
import rampwright.acquisition.file.UnitTable.Dimension;
import rampwright.acquisition.file.UnitTable.Unit;
import rampwright.analysis.trace.ChannelName;

/**
 * What a header makes of its column.
 *
 * @param channel the channel it names; null when it names none, or not which
 * @param unlabelled whether it is a current that does not say its phase
 * @param reason why a column that looks like a channel is none, with what to do; empty otherwise
 * @param remark what was assumed about it; empty otherwise
 */
record ColumnGuess(
    @Nullable ChannelName channel, boolean unlabelled, String reason, String remark) {

  private static final ColumnGuess NOTHING = new ColumnGuess(null, false, "", "");

  static ColumnGuess of(Column column) {
    Word quantity = quantity(column);
    if (quantity == null || isTime(column)) {
      return NOTHING;
    }
    String excluded = excluded(column, quantity);
    if (!excluded.isEmpty()) {
      return left(excluded);
    }
    List<Integer> phases = column.meaning().phases();
    return switch (quantity) {
      case CURRENT -> current(phases);
      case VOLTAGE -> voltage(column, phases);
      case SPEED -> named(ChannelName.SPEED);
      case TORQUE -> named(ChannelName.TORQUE);
      case POWER ->
          phases.isEmpty()
              ? named(ChannelName.POWER)
              : left("is the power of one phase; power is that of all");
      case PRESSURE -> named(ChannelName.PRESSURE);
      case RUN -> named(ChannelName.RUN);
      default -> NOTHING;
    };
  }

  /** Whether the column tells the time, by words or unit. */
  static boolean isTime(Column column) {
    HeaderMeaning meaning = column.meaning();
    Unit unit = column.head().unit();
    boolean timeUnit = unit != null && unit.dimension() == Dimension.TIME;
    boolean timeWord =
        meaning.has(Word.TIME)
            || meaning.has(Word.STAMP)
            || meaning.has(Word.CLOCK)
            || meaning.has(Word.DATE);
    boolean other = meaning.quantity() != null || isKept(meaning);
    return !other && (timeUnit || (timeWord && unit == null));
  }

  private static boolean isKept(HeaderMeaning meaning) {
    return meaning.has(Word.SETPOINT) || meaning.has(Word.DERIVED);
  }

  private static @Nullable Word quantity(Column column) {
    Word word = column.meaning().quantity();
    Unit unit = column.head().unit();
    Word byUnit = unit == null ? null : word(unit.dimension());
    if (unit != null && unit.dimension() == Dimension.TIME) {
      // "Motor run time [h]" is neither a command nor a reading.
      return null;
    }
    if (byUnit == null) {
      boolean turns =
          unit != null
              && unit.dimension() == Dimension.FREQUENCY
              && column.meaning().has(Word.ROTATION);
      return turns ? Word.SPEED : word;
    }
    // A lone symbol (p, n, t, u) means what its unit says.
    boolean symbol = column.head().name().length() <= 2;
    return word == null || symbol ? byUnit : word;
  }

  private static @Nullable Word word(Dimension dimension) {
    return switch (dimension) {
      case CURRENT -> Word.CURRENT;
      case VOLTAGE -> Word.VOLTAGE;
      case SPEED -> Word.SPEED;
      case TORQUE -> Word.TORQUE;
      case POWER -> Word.POWER;
      case PRESSURE -> Word.PRESSURE;
      case TIME, RATIO, FREQUENCY, OTHER -> null;
    };
  }

  private static String excluded(Column column, Word quantity) {
    HeaderMeaning meaning = column.meaning();
    if (meaning.has(Word.SETPOINT) && quantity != Word.RUN) {
      return "is a set value, not a reading";
    }
    if (meaning.has(Word.EXTREME)) {
      return "is an extreme of an interval, not a reading";
    }
    if (meaning.has(Word.DERIVED) && !(quantity == Word.SPEED && meaning.has(Word.ROTATION))) {
      return "is derived, not a reading of the quantity";
    }
    if (meaning.has(Word.OTHER) && (quantity == Word.CURRENT || quantity == Word.VOLTAGE)) {
      return "is not of a phase of the stator";
    }
    if (quantity == Word.POWER && (meaning.has(Word.REACTIVE) || isNotActive(column))) {
      return "is not active power";
    }
    if (quantity == Word.POWER && meaning.has(Word.MECHANICAL)) {
      return "is mechanical power; power is the electrical input";
    }
    return "";
  }

  private static boolean isNotActive(Column column) {
    Unit unit = column.head().unit();
    return unit != null && unit.dimension() == Dimension.OTHER;
  }

  private static ColumnGuess current(List<Integer> phases) {
    if (phases.isEmpty()) {
      return new ColumnGuess(null, true, "", "");
    }
    return phases.size() == 1
        ? named(ChannelName.CURRENTS.get(phases.get(0) - 1))
        : left("is a current between two phases");
  }

  private static ColumnGuess voltage(Column column, List<Integer> phases) {
    boolean line = column.meaning().has(Word.LINE);
    if (phases.size() == 2 && !phases.get(0).equals(phases.get(1))) {
      int from = phases.get(0);
      int to = phases.get(1);
      boolean forward = to == from % 3 + 1;
      ChannelName channel = ChannelName.LINE_VOLTAGES.get((forward ? from : to) - 1);
      return new ColumnGuess(
          channel,
          false,
          "",
          forward
              ? ""
              : "measured the other way round; values kept as they are (scale = -1 turns them)");
    }
    if (phases.size() == 1) {
      int phase = phases.get(0) - 1;
      return line
          ? new ColumnGuess(
              ChannelName.LINE_VOLTAGES.get(phase), false, "", "its name says line to line")
          : named(ChannelName.PHASE_VOLTAGES.get(phase));
    }
    if (phases.isEmpty() && line) {
      return new ColumnGuess(
          ChannelName.V12, false, "", "a line-to-line voltage that names no phases");
    }
    if (!column.meaning().has(Word.VOLTAGE)) {
      return left("is in V but does not say of what; a sensor's output needs a scale");
    }
    return left("does not say whether it is line to line (v12) or line to neutral (v1)");
  }

  private static ColumnGuess named(ChannelName channel) {
    return new ColumnGuess(channel, false, "", "");
  }

  private static ColumnGuess left(String reason) {
    return new ColumnGuess(null, false, reason, "");
  }
}
