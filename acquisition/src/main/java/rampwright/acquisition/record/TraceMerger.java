package rampwright.acquisition.record;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.device.DeviceEvent;
import rampwright.analysis.trace.ChannelName;

/**
 * Readings of several requests, each with its own instants, on one time base: that of the request
 * that reads the phase current. Its channels are taken as they are; others are put between their
 * neighbouring readings, in proportion for quantities, the last one for the run command, and not at
 * all across more than {@value #MOST_INTERVALS} of their own intervals.
 */
final class TraceMerger {
  static final double MOST_INTERVALS = 2.5;

  /** One channel's readings. */
  private static final class Series {
    private final List<double[]> points = new ArrayList<>();
    private double stepNs = Double.NaN;
  }

  /**
   * Channels on one time base.
   *
   * @param atNs instants on the monotonic clock, increasing
   * @param values each channel's values at them; NaN where there is none
   * @param other channels that were put on the time base of others
   */
  record Merged(long[] atNs, Map<ChannelName, double[]> values, List<ChannelName> other) {}

  private TraceMerger() {}

  /**
   * Merges.
   *
   * @param names the channels of each device, in order
   * @param readings from any device in any order
   */
  static Merged merge(List<List<ChannelName>> names, List<DeviceEvent.Reading> readings) {
    List<DeviceEvent.Reading> sorted = new ArrayList<>(readings);
    sorted.sort(Comparator.comparingLong(DeviceEvent.Reading::atNs));
    Long base = base(names, sorted);
    Map<ChannelName, Series> series = new EnumMap<>(ChannelName.class);
    Map<ChannelName, Long> owner = new EnumMap<>(ChannelName.class);
    List<DeviceEvent.Reading> rows = new ArrayList<>();
    long lastNs = Long.MIN_VALUE;
    for (DeviceEvent.Reading reading : sorted) {
      for (int i = 0; i < reading.channels().length; i++) {
        ChannelName name = names.get(reading.device()).get(reading.channels()[i]);
        owner.put(name, key(reading));
        series
            .computeIfAbsent(name, n -> new Series())
            .points
            .add(new double[] {reading.atNs(), reading.values()[i]});
      }
      if (base != null && key(reading) == base && micros(reading.atNs()) > micros(lastNs)) {
        rows.add(reading);
        lastNs = reading.atNs();
      }
    }
    long[] atNs = rows.stream().mapToLong(DeviceEvent.Reading::atNs).toArray();
    Map<ChannelName, double[]> values = new EnumMap<>(ChannelName.class);
    List<ChannelName> other = new ArrayList<>();
    for (Map.Entry<ChannelName, Series> entry : series.entrySet()) {
      ChannelName name = entry.getKey();
      if (base != null && base.equals(owner.get(name))) {
        values.put(name, own(rows, names, name));
      } else {
        other.add(name);
        values.put(name, between(entry.getValue(), atNs, name == ChannelName.RUN));
      }
    }
    return new Merged(atNs, values, other);
  }

  private static long micros(long ns) {
    return Math.floorDiv(ns, 1000L);
  }

  private static long key(DeviceEvent.Reading reading) {
    return ((long) reading.device() << 32) | reading.block();
  }

  private static @Nullable Long base(
      List<List<ChannelName>> names, List<DeviceEvent.Reading> sorted) {
    Map<Long, Integer> counts = new HashMap<>();
    Map<Long, Integer> currents = new HashMap<>();
    for (DeviceEvent.Reading reading : sorted) {
      counts.merge(key(reading), 1, Integer::sum);
      int had = 0;
      for (int channel : reading.channels()) {
        had += ChannelName.CURRENTS.contains(names.get(reading.device()).get(channel)) ? 1 : 0;
      }
      currents.put(key(reading), had);
    }
    return counts.keySet().stream()
        .max(
            Comparator.<Long>comparingInt(
                    // One reading makes no time base.
                    key -> counts.getOrDefault(key, 0) < 2 ? -1 : currents.getOrDefault(key, 0))
                .thenComparingInt(key -> counts.getOrDefault(key, 0))
                .thenComparing(Comparator.reverseOrder()))
        .orElse(null);
  }

  private static double[] own(
      List<DeviceEvent.Reading> rows, List<List<ChannelName>> names, ChannelName name) {
    double[] values = new double[rows.size()];
    for (int row = 0; row < values.length; row++) {
      DeviceEvent.Reading reading = rows.get(row);
      values[row] = Double.NaN;
      for (int i = 0; i < reading.channels().length; i++) {
        if (names.get(reading.device()).get(reading.channels()[i]) == name) {
          values[row] = reading.values()[i];
        }
      }
    }
    return values;
  }

  private static double[] between(Series series, long[] atNs, boolean hold) {
    List<double[]> points =
        series.points.stream().filter(point -> !Double.isNaN(point[1])).toList();
    double[] values = new double[atNs.length];
    series.stepNs =
        QualityFinder.medianStep(points.stream().mapToLong(point -> (long) point[0]).toArray());
    double most = MOST_INTERVALS * series.stepNs;
    int next = 0;
    for (int i = 0; i < atNs.length; i++) {
      while (next < points.size() && points.get(next)[0] < atNs[i]) {
        next++;
      }
      double[] before = next > 0 ? points.get(next - 1) : null;
      double[] after = next < points.size() ? points.get(next) : null;
      values[i] = value(before, after, (double) atNs[i], most, series.stepNs, hold);
    }
    return values;
  }

  private static double value(
      double @Nullable [] before,
      double @Nullable [] after,
      double atNs,
      double mostNs,
      double stepNs,
      boolean hold) {
    if (after != null && after[0] == atNs) {
      return after[1];
    }
    if (before == null || after == null) {
      // At the ends a reading stands for half an interval around it.
      double[] only = before == null ? after : before;
      boolean near = only != null && Math.abs(only[0] - atNs) <= (hold ? mostNs : stepNs / 2);
      return near && only != null && (before != null || !hold) ? only[1] : Double.NaN;
    }
    if (!(after[0] - before[0] <= mostNs)) {
      return Double.NaN;
    }
    if (hold) {
      return before[1];
    }
    double share = (atNs - before[0]) / (after[0] - before[0]);
    return before[1] + share * (after[1] - before[1]);
  }
}
