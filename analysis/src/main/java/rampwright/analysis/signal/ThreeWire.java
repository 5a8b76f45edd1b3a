package rampwright.analysis.signal;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;

/**
 * The voltages and currents of a three-wire circuit, completed where two of three were recorded.
 *
 * <p>Formula: v12 + v23 + v31 = 0 and i1 + i2 + i3 = 0 give the third; from phase voltages v12 = v1
 * - v2, and so on.
 *
 * <p>Valid: no current in a fourth wire or to earth. With all three recorded their sum is not
 * forced to zero.
 */
public final class ThreeWire {
  private static final int PHASES = 3;

  private final EnumMap<ChannelName, Samples> channels;
  private final int size;

  private ThreeWire(EnumMap<ChannelName, Samples> channels, int size) {
    this.channels = channels;
    this.size = size;
  }

  /**
   * The circuit that the channels describe; empty when too few are there ({@link #missing} says
   * which).
   *
   * @throws IllegalArgumentException when channels differ in length
   */
  public static Optional<ThreeWire> of(Map<ChannelName, Samples> channels) {
    if (!missing(channels).isEmpty()) {
      return Optional.empty();
    }
    EnumMap<ChannelName, Samples> used = new EnumMap<>(ChannelName.class);
    for (List<ChannelName> group :
        List.of(ChannelName.CURRENTS, ChannelName.LINE_VOLTAGES, ChannelName.PHASE_VOLTAGES)) {
      for (ChannelName name : group) {
        Samples samples = channels.get(name);
        if (samples != null) {
          used.put(name, samples);
        }
      }
    }
    int size = used.values().iterator().next().size();
    used.forEach(
        (name, samples) -> {
          if (samples.size() != size) {
            throw new IllegalArgumentException(
                "channel " + name.key() + " has " + samples.size() + " samples, others " + size);
          }
        });
    return Optional.of(new ThreeWire(used, size));
  }

  /** What is missing for power, in words; empty when nothing is. */
  public static String missing(Map<ChannelName, Samples> channels) {
    if (count(channels, ChannelName.CURRENTS) < 2) {
      return "needs two phase currents at least";
    }
    if (count(channels, ChannelName.LINE_VOLTAGES) < 2
        && count(channels, ChannelName.PHASE_VOLTAGES) < PHASES) {
      return "needs two line-to-line voltages or all three phase voltages";
    }
    return "";
  }

  /** Number of samples of every channel. */
  public int size() {
    return size;
  }

  /** Line-to-line voltages v12, v23, v31 at the samples from {@code from} on: [3][count], V. */
  double[][] lineVoltages(int from, int count) {
    if (count(channels, ChannelName.LINE_VOLTAGES) >= 2) {
      return complete(ChannelName.LINE_VOLTAGES, from, count);
    }
    double[][] v = complete(ChannelName.PHASE_VOLTAGES, from, count);
    double[][] lines = new double[PHASES][count];
    for (int p = 0; p < PHASES; p++) {
      double[] minus = v[(p + 1) % PHASES];
      for (int k = 0; k < count; k++) {
        lines[p][k] = v[p][k] - minus[k];
      }
    }
    return lines;
  }

  /** Line currents i1, i2, i3 at the samples from {@code from} on: [3][count], A. */
  double[][] currents(int from, int count) {
    return complete(ChannelName.CURRENTS, from, count);
  }

  private double[][] complete(List<ChannelName> names, int from, int count) {
    double[][] values = new double[PHASES][count];
    int absent = -1;
    for (int p = 0; p < PHASES; p++) {
      @Nullable Samples samples = channels.get(names.get(p));
      if (samples == null) {
        absent = p;
      } else {
        samples.copy(from, values[p], 0, count);
      }
    }
    if (absent >= 0) {
      double[] one = values[(absent + 1) % PHASES];
      double[] two = values[(absent + 2) % PHASES];
      for (int k = 0; k < count; k++) {
        values[absent][k] = -one[k] - two[k];
      }
    }
    return values;
  }

  private static long count(Map<ChannelName, Samples> channels, List<ChannelName> names) {
    return names.stream().filter(channels::containsKey).count();
  }
}
