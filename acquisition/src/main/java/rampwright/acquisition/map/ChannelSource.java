package rampwright.acquisition.map;

import org.jspecify.annotations.Nullable;

/** Where a channel's raw number is found in what a device says. */
public sealed interface ChannelSource {

  /**
   * Registers or a bit of a Modbus device.
   *
   * @param function 1 coils, 2 discrete inputs, 3 holding registers, 4 input registers
   * @param address protocol address of the first one, from 0
   * @param form how the number lies in them
   * @param noReadingBits bits that mean "no reading"; null when none do
   */
  record Registers(int function, int address, RegisterForm form, @Nullable Long noReadingBits)
      implements ChannelSource {
    public Registers {
      if (function < 1 || function > 4) {
        throw new IllegalArgumentException("function " + function + "; 1 to 4 read, others do not");
      }
    }

    /** The first address behind it. */
    public int end() {
      return address + form.type().words();
    }

    /** Whether the function reads bits, not registers. */
    public boolean isBit() {
      return function <= 2;
    }
  }

  /**
   * A field of a separated line.
   *
   * @param index from 1
   * @param noReading number that means "no reading"; null when none does
   */
  record Field(int index, @Nullable Double noReading) implements ChannelSource {}

  /**
   * A named group of the map's pattern; the group has the channel's name.
   *
   * @param noReading number that means "no reading"; null when none does
   */
  record Group(@Nullable Double noReading) implements ChannelSource {}

  /** The channel of the same name in a trace file that is played again. */
  record Column() implements ChannelSource {}
}
