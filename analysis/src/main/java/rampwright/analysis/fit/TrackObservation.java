package rampwright.analysis.fit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.signal.RmsTrack;
import rampwright.analysis.trace.ChannelName;

/** Observations from RMS tracks. */
public final class TrackObservation {
  private static final int MOST_POINTS = 3000;
  private static final double PRE_S = 1.6;
  private static final double AFTER_S = 1.0;
  // Voltage that is not there before the start was taken behind the starter: not the supply's.
  private static final double LIVE_SHARE = 0.5;

  private TrackObservation() {}

  /**
   * The instants of a start and its stop, s on the track's time base; NaN for those that are not
   * known.
   *
   * @param inceptionS current begins
   * @param stopBeginS stop order
   * @param stopBeginUncertaintyS its standard uncertainty
   * @param releaseS current ceases
   * @param endS what comes after is another start's
   */
  public record Instants(
      double inceptionS,
      double stopBeginS,
      double stopBeginUncertaintyS,
      double releaseS,
      double endS) {}

  /**
   * An observation of one start.
   *
   * @param speed whether the track's speed is to be used where there is one
   * @param end how the start ended; null to judge it from the current
   * @throws IllegalArgumentException when no current flows, or no current was read
   */
  public static TrialObservation of(
      RmsTrack track,
      Instants at,
      StarterSettings settings,
      AssetData asset,
      boolean speed,
      TrialObservation.@Nullable End end) {
    double[] t = track.timeS();
    int from = first(t, at.inceptionS() - PRE_S);
    int to = Math.max(from, first(t, at.endS() + AFTER_S));
    int stride = Math.max(1, (to - from) / MOST_POINTS);
    double[] times = picked(t, from, to, stride);
    double[][] currents = picked(track, ChannelName.CURRENTS, from, to, stride);
    double[][] voltages = picked(track, ChannelName.LINE_VOLTAGES, from, to, stride);
    if (!isSupply(times, voltages, at.inceptionS(), asset.supplyVoltageV())) {
      voltages = new double[0][];
    }
    double[] rpm = speed ? track.of(ChannelName.SPEED) : null;
    ObservationBuilder builder =
        new ObservationBuilder(settings, asset.measuredRatedCurrentA())
            .readings(times, currents, voltages, rpm == null ? null : picked(rpm, from, to, stride))
            .instants(at.inceptionS(), at.stopBeginS(), at.stopBeginUncertaintyS(), at.releaseS());
    return (end == null ? builder : builder.end(end)).build();
  }

  private static boolean isSupply(
      double[] times, double[][] voltages, double inceptionS, double declaredV) {
    if (voltages.length == 0) {
      return false;
    }
    double sum = 0;
    int n = 0;
    for (int k = 0; k < times.length && times[k] < inceptionS - 0.02; k++) {
      if (!Double.isNaN(voltages[0][k])) {
        sum += voltages[0][k];
        n++;
      }
    }
    return n >= 3 && sum / n > LIVE_SHARE * declaredV;
  }

  private static int first(double[] t, double atS) {
    int i = Arrays.binarySearch(t, atS);
    return i >= 0 ? i : -i - 1;
  }

  private static double[] picked(double[] all, int from, int to, int stride) {
    double[] out = new double[(to - from + stride - 1) / stride];
    for (int k = 0; k < out.length; k++) {
      out[k] = all[from + k * stride];
    }
    return out;
  }

  private static double[][] picked(
      RmsTrack track, List<ChannelName> names, int from, int to, int stride) {
    List<double[]> out = new ArrayList<>();
    for (ChannelName name : names) {
      double[] one = track.of(name);
      if (one != null) {
        out.add(picked(one, from, to, stride));
      }
    }
    return out.toArray(new double[0][]);
  }
}
