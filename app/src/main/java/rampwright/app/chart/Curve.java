package rampwright.app.chart;

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
 */
record Curve(TimeBase time, Samples values, double zeroS) {

  /** A channel of a track; null when it does not have it or holds nothing good. */
  static @Nullable Curve of(RmsTrack track, ChannelName channel, double zeroS) {
    double[] values = track.of(channel);
    return values == null ? null : of(track.timeS(), values, zeroS);
  }

  /** Values at increasing times; null when none is good. */
  static @Nullable Curve of(double[] timeS, double[] values, double zeroS) {
    for (double value : values) {
      if (Double.isFinite(value)) {
        return new Curve(TimeBase.listed(Samples.owning(timeS)), Samples.owning(values), zeroS);
      }
    }
    return null;
  }

  /** First and last instant in the chart's time; null when there are no two. */
  @Nullable Span span() {
    int size = time.size();
    if (size < 2) {
      return null;
    }
    return new Span(time.atS(0) - zeroS, time.atS(size - 1) - zeroS);
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
