package rampwright.app.chart;

import org.jspecify.annotations.Nullable;
import rampwright.analysis.signal.RmsTrack;
import rampwright.analysis.trace.ChannelName;

/** The largest of the phase currents at each instant. */
final class HighestPhase {
  private HighestPhase() {}

  /** A curve of it in multiples of {@code oneA}; null when the track has no good current. */
  static @Nullable Curve of(RmsTrack track, double zeroS, double oneA) {
    double[] highest = new double[track.size()];
    java.util.Arrays.fill(highest, Double.NaN);
    for (ChannelName channel : ChannelName.CURRENTS) {
      double[] values = track.of(channel);
      for (int i = 0; values != null && i < highest.length; i++) {
        double value = values[i] / oneA;
        if (Double.isFinite(value) && !(value <= highest[i])) {
          highest[i] = value;
        }
      }
    }
    return Curve.of(track.timeS(), highest, zeroS);
  }
}
