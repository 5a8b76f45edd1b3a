package rampwright.analysis.signal;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.ChannelName;

/**
 * RMS values of currents and line-to-line voltages against time, and the other channels taken at
 * the same instants.
 *
 * <p>Shape: every array has the length of {@code timeS}. For a waveform a value is the RMS over the
 * one cycle that ends at its time, refreshed every half cycle; for RMS readings it is the reading.
 * NaN marks a value that could not be had. The arrays are not to be written to.
 */
public final class RmsTrack {
  private final double[] timeS;
  private final Map<ChannelName, double[]> values;

  /** A track over arrays that the caller gives up and will not write to again. */
  public RmsTrack(double[] timeS, Map<ChannelName, double[]> values) {
    values.forEach(
        (name, array) -> {
          if (array.length != timeS.length) {
            throw new IllegalArgumentException(
                "track of "
                    + name.key()
                    + " has "
                    + array.length
                    + " values for "
                    + timeS.length
                    + " times");
          }
        });
    EnumMap<ChannelName, double[]> sorted = new EnumMap<>(ChannelName.class);
    sorted.putAll(values);
    this.timeS = timeS;
    this.values = Collections.unmodifiableMap(sorted);
  }

  public int size() {
    return timeS.length;
  }

  /** Times in seconds, increasing. */
  public double[] timeS() {
    return timeS;
  }

  /** Values of a channel; null when the track does not have it. */
  public double @Nullable [] of(ChannelName name) {
    return values.get(name);
  }

  public Map<ChannelName, double[]> values() {
    return values;
  }
}
