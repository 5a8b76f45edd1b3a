package rampwright.analysis.signal;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import rampwright.analysis.quantity.Quantity;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;
import rampwright.analysis.trace.Trace;

/**
 * RMS tracks of a trace.
 *
 * <p>Waveform: one-cycle RMS refreshed every half cycle, stamped at the cycle's end (the U_rms(1/2)
 * method of IEC 61000-4-30, from memory of edition 3, 5.2). All channels share the boundaries of
 * one reference, so that their tracks have one time axis; against boundaries of their own this
 * moves a value of a steady sine by nothing and shifts an event by less than half a cycle.
 *
 * <p>Line-to-line voltages are made from phase voltages where the trace has no others: vector
 * differences for waveforms, times sqrt(3) for RMS readings.
 */
public final class RmsTracker {
  private static final double SQRT3 = Math.sqrt(3);

  private RmsTracker() {}

  /** Track of a waveform trace over given cycles. */
  public static RmsTrack ofWaveform(Trace trace, Cycles cycles) {
    double[] edgeS = cycles.boundaryS();
    int n = Math.max(0, edgeS.length - 2);
    double[] timeS = new double[n];
    for (int k = 0; k < n; k++) {
      timeS[k] = edgeS[k + 2];
    }
    Map<ChannelName, double[]> values = new EnumMap<>(ChannelName.class);
    for (ChannelName name : trace.names()) {
      Samples samples = trace.channel(name);
      if (samples == null) {
        continue;
      }
      values.put(
          name,
          isAlternating(name)
              ? oneCycleRms(trace.time(), samples, edgeS)
              : oneCycleMean(trace.time(), samples, edgeS));
    }
    addLineVoltages(trace, edgeS, values);
    return new RmsTrack(timeS, values);
  }

  /** Track of RMS readings: the readings as they come, with line voltages made where they lack. */
  public static RmsTrack ofReadings(Trace trace) {
    int n = trace.size();
    double[] timeS = new double[n];
    for (int i = 0; i < n; i++) {
      timeS[i] = trace.time().atS(i);
    }
    Map<ChannelName, double[]> values = new EnumMap<>(ChannelName.class);
    for (ChannelName name : trace.names()) {
      Samples samples = trace.channel(name);
      if (samples != null) {
        values.put(name, samples.toArray());
      }
    }
    if (trace.present(ChannelName.LINE_VOLTAGES).isEmpty()) {
      for (int p = 0; p < 3; p++) {
        double[] phase = values.get(ChannelName.PHASE_VOLTAGES.get(p));
        if (phase != null) {
          double[] line = new double[n];
          for (int i = 0; i < n; i++) {
            line[i] = phase[i] * SQRT3;
          }
          values.put(ChannelName.LINE_VOLTAGES.get(p), line);
        }
      }
    }
    return new RmsTrack(timeS, values);
  }

  private static boolean isAlternating(ChannelName name) {
    return name.quantity() == Quantity.CURRENT
        || name.quantity() == Quantity.LINE_VOLTAGE
        || name.quantity() == Quantity.PHASE_VOLTAGE;
  }

  /** One-cycle RMS of a waveform between half-cycle edges; length edges - 2. */
  static double[] oneCycleRms(TimeBase time, Samples samples, double[] edgeS) {
    double[] half = new double[Math.max(0, edgeS.length - 1)];
    for (int k = 0; k < half.length; k++) {
      half[k] = WindowIntegral.square(time, samples, edgeS[k], edgeS[k + 1]);
    }
    double[] rms = new double[Math.max(0, edgeS.length - 2)];
    for (int k = 0; k < rms.length; k++) {
      rms[k] = Math.sqrt((half[k] + half[k + 1]) / (edgeS[k + 2] - edgeS[k]));
    }
    return rms;
  }

  private static double[] oneCycleMean(TimeBase time, Samples samples, double[] edgeS) {
    double[] mean = new double[Math.max(0, edgeS.length - 2)];
    for (int k = 0; k < mean.length; k++) {
      mean[k] =
          WindowIntegral.value(time, samples, edgeS[k], edgeS[k + 2]) / (edgeS[k + 2] - edgeS[k]);
    }
    return mean;
  }

  private static void addLineVoltages(
      Trace trace, double[] edgeS, Map<ChannelName, double[]> values) {
    if (!trace.present(ChannelName.LINE_VOLTAGES).isEmpty()) {
      return;
    }
    List<ChannelName> phases = trace.present(ChannelName.PHASE_VOLTAGES);
    for (int p = 0; p < 3; p++) {
      Samples a = trace.channel(ChannelName.PHASE_VOLTAGES.get(p));
      Samples b = trace.channel(ChannelName.PHASE_VOLTAGES.get((p + 1) % 3));
      if (a != null && b != null) {
        values.put(
            ChannelName.LINE_VOLTAGES.get(p), oneCycleRms(trace.time(), difference(a, b), edgeS));
      } else if (a != null && phases.size() == 1) {
        // One phase voltage only: the line voltage of a balanced supply, said where it is used.
        double[] rms = oneCycleRms(trace.time(), a, edgeS);
        for (int k = 0; k < rms.length; k++) {
          rms[k] *= SQRT3;
        }
        values.put(ChannelName.LINE_VOLTAGES.get(p), rms);
      }
    }
  }

  private static Samples difference(Samples a, Samples b) {
    double[] out = a.toArray();
    for (int i = 0; i < out.length; i++) {
      out[i] -= b.at(i);
    }
    return Samples.owning(out);
  }
}
