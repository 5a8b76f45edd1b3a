package rampwright.acquisition.map;

import rampwright.analysis.trace.ChannelName;

/**
 * One channel of a map.
 *
 * <p>Formula: value = (raw x scale + offset) x toUnit, in the unit of the channel's quantity
 *
 * @param name which channel of a trace it becomes
 * @param source where its raw number is
 * @param scale factor to {@code unit}
 * @param offset addend in {@code unit}
 * @param unit as the map has it
 * @param toUnit factor from {@code unit} to the unit of the channel's quantity
 * @param poll name of the poll group; empty for the device's own rate
 * @param note where the map's author has it from; may be empty
 * @param line line of the map it stands in, from 1
 */
public record MapChannel(
    ChannelName name,
    ChannelSource source,
    double scale,
    double offset,
    String unit,
    double toUnit,
    String poll,
    String note,
    int line) {

  /** The channel's value of a raw number. */
  public double value(double raw) {
    return (raw * scale + offset) * toUnit;
  }

  /** The raw number of a value: what a device with this map would hold. */
  public double raw(double value) {
    return (value / toUnit - offset) / scale;
  }
}
