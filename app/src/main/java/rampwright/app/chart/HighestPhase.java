package rampwright.app.chart;

import org.jspecify.annotations.Nullable;
import rampwright.analysis.signal.RmsTrack;
import rampwright.analysis.trace.ChannelName;

/** The largest of the phase currents at each instant. */
final class HighestPhase {
  private HighestPhase() {}

  /** A curve of it; null when the track has no good current. */
  static @Nullable Curve of(RmsTrack track, double zeroS) {
    double[] highest = new double[track.size()];
    java.util.Arrays.fill(highest, Double.NaN);
    for (ChannelName channel : ChannelName.CURRENTS) {
      double[] values = track.of(channel);
      for (int i = 0; values != null && i < highest.length; i++) {
        if (!(values[i] <= highest[i])) {
          highest[i] = Double.isFinite(values[i]) ? values[i] : highest[i];
        }
      }
    }
    return Curve.of(track.timeS(), highest, zeroS);
  }
}
