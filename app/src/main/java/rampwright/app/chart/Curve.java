package rampwright.app.chart;

import java.util.Arrays;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.signal.RmsTrack;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;

/**
 * A channel over time, brought to the chart's time.
 *
 * @param time instants on the trace's time base
 * @param values as many values
 * @param zeroS instant of the trace that is 0 in the chart, s
 * @param gapS a longer interval between samples is a gap, s
 */
record Curve(TimeBase time, Samples values, double zeroS, double gapS) {
  /** Three intervals (the finding {@code gap}), and half a one for jitter. */
  private static final double GAP_INTERVALS = 3.5;

  /** A channel of a track; null when it does not have it or holds nothing good. */
  static @Nullable Curve of(RmsTrack track, ChannelName channel, double zeroS) {
    double[] values = track.of(channel);
    return values == null ? null : of(track.timeS(), values, zeroS);
  }

  /** Values at increasing times; null when none is good. */
  static @Nullable Curve of(double[] timeS, double[] values, double zeroS) {
    TimeBase time = TimeBase.listed(Samples.owning(timeS));
    return ofAny(time, values, zeroS, GAP_INTERVALS * time.typicalStepS());
  }

  /** The same up to an instant of the chart; null when nothing good is left. NaN: all of it. */
  @Nullable Curve until(double chartS) {
    double[] left = new double[time.size()];
    for (int i = 0; i < left.length; i++) {
      left[i] = chartS(i) > chartS ? Double.NaN : values.at(i);
    }
    return ofAny(time, left, zeroS, gapS);
  }

  /** Another curve less this one, at every instant either has; null when they never meet. */
  @Nullable Curve differenceTo(Curve other, Span window) {
    double[] timeS =
        DoubleStream.concat(instants(window), other.instants(window)).sorted().distinct().toArray();
    double[] values = Arrays.stream(timeS).map(t -> other.at(t) - at(t)).toArray();
    return ofAny(TimeBase.listed(Samples.owning(timeS)), values, 0, Math.max(gapS, other.gapS));
  }

  private static @Nullable Curve ofAny(TimeBase time, double[] values, double zeroS, double gapS) {
    return Arrays.stream(values).anyMatch(Double::isFinite)
        ? new Curve(time, Samples.owning(values), zeroS, gapS)
        : null;
  }

  private DoubleStream instants(Span window) {
    return IntStream.range(firstAtOrAfter(window.fromS()), firstAtOrAfter(window.toS()))
        .mapToDouble(this::chartS);
  }

  /** Columns of pixels over a stretch of the chart's time. */
  MinMaxColumns columns(Span window, int count) {
    return MinMaxColumns.of(time, values, zeroS, window, count);
  }

  /** Index of the first sample at or after an instant of the chart. */
  int firstAtOrAfter(double chartS) {
    return time.firstAtOrAfter(chartS + zeroS);
  }

  double chartS(int i) {
    return time.atS(i) - zeroS;
  }

  /**
   * Value at an instant of the chart, by straight line between neighbours; NaN outside or in gaps.
   */
  double at(double chartS) {
    int next = firstAtOrAfter(chartS);
    if (next >= time.size()) {
      return Double.NaN;
    }
    if (chartS(next) == chartS) {
      return values.at(next);
    }
    if (next == 0) {
      return Double.NaN;
    }
    double share = (chartS - chartS(next - 1)) / (chartS(next) - chartS(next - 1));
    return values.at(next - 1) + share * (values.at(next) - values.at(next - 1));
  }
}
