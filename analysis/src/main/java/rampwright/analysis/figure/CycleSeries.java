package rampwright.analysis.figure;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.hipparchus.complex.Complex;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.signal.CycleSpectrum;
import rampwright.analysis.signal.Cycles;
import rampwright.analysis.signal.OneCycleDft;
import rampwright.analysis.signal.SampleWindow;
import rampwright.analysis.signal.SymmetricalComponents;
import rampwright.analysis.signal.ThreeWire;
import rampwright.analysis.signal.ThreeWirePower;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.EvenTime;
import rampwright.analysis.trace.Samples;

/**
 * What one cycle after the other of a waveform holds, over a flow of current.
 *
 * <p>Shape: arrays have one value a cycle; {@code spectra[p][k]} is phase p in cycle k.
 *
 * @param fromS start of each cycle, s
 * @param toS end of each cycle
 * @param spectra phase currents, orders 1 to {@link #ORDERS} or what the rate allows
 * @param negativeShare I2/I1; NaN without three phases
 * @param power three-wire power a cycle; empty where voltage or current lack
 */
record CycleSeries(
    double[] fromS,
    double[] toS,
    CycleSpectrum[][] spectra,
    double[] negativeShare,
    List<ThreeWirePower> power) {
  /** Highest order followed along a start. */
  static final int ORDERS = 13;

  private static final double LEAST_SAMPLES = 5;

  int size() {
    return fromS.length;
  }

  /** Synchronous speed of a machine with that many pole pairs in cycle {@code k}, rad/s. */
  double syncRadPerS(int k, double polePairs) {
    return 2 * Math.PI / (toS[k] - fromS[k]) / polePairs;
  }

  /** Cycles inside [fromS, toS]; null when the trace is no evenly sampled waveform. */
  static @Nullable CycleSeries over(Readings r, double fromS, double toS) {
    Cycles cycles = r.cycles;
    if (cycles == null || !(r.trace.time() instanceof EvenTime even)) {
      return null;
    }
    double[] edge = cycles.boundaryS();
    List<Integer> at = new ArrayList<>();
    for (int k = 0; k + 2 < edge.length; k += 2) {
      double samples = (edge[k + 2] - edge[k]) / even.stepS();
      if (edge[k] >= fromS && edge[k + 2] <= toS && samples >= LEAST_SAMPLES) {
        at.add(k);
      }
    }
    int n = at.size();
    int phases = r.phases.size();
    double[] from = new double[n];
    double[] to = new double[n];
    double[] negative = new double[n];
    CycleSpectrum[][] spectra = new CycleSpectrum[phases][n];
    List<ThreeWirePower> power = new ArrayList<>();
    Optional<ThreeWire> circuit = circuit(r);
    for (int j = 0; j < n; j++) {
      from[j] = edge[at.get(j)];
      to[j] = edge[at.get(j) + 2];
      SampleWindow window =
          new SampleWindow(
              Math.max(0, (from[j] - even.startS()) / even.stepS()),
              Math.min(even.size() - 1.0, (to[j] - even.startS()) / even.stepS()));
      int orders = Math.min(ORDERS, OneCycleDft.highestOrder(window));
      OneCycleDft dft = new OneCycleDft(window, even.size(), orders);
      for (int p = 0; p < phases; p++) {
        Samples samples = r.trace.channel(r.phases.get(p));
        if (samples == null) {
          throw new IllegalArgumentException("no samples of " + r.phases.get(p).key());
        }
        spectra[p][j] = dft.of(samples);
      }
      negative[j] = negativeShare(spectra, j);
      circuit.ifPresent(wired -> power.add(ThreeWirePower.over(wired, dft)));
    }
    return new CycleSeries(from, to, spectra, negative, power);
  }

  private static double negativeShare(CycleSpectrum[][] spectra, int j) {
    if (spectra.length < 3) {
      return Double.NaN;
    }
    Complex a = spectra[0][j].phasor(1);
    Complex b = spectra[1][j].phasor(1);
    Complex c = spectra[2][j].phasor(1);
    SymmetricalComponents s = SymmetricalComponents.of(a, b, c);
    // Channels recorded in reverse order swap the sequences; the smaller is the unbalance.
    double plus = s.positive().norm();
    double minus = s.negative().norm();
    return Math.min(plus, minus) / Math.max(plus, minus);
  }

  static Optional<ThreeWire> circuit(Readings r) {
    Map<ChannelName, Samples> channels = new EnumMap<>(ChannelName.class);
    for (ChannelName name : r.trace.names()) {
      Samples samples = r.trace.channel(name);
      if (samples != null) {
        channels.put(name, samples);
      }
    }
    // Currents inside a delta do not flow in the wires whose voltages are known.
    return !r.motor.currentsInWindings() && ThreeWire.missing(channels).isEmpty()
        ? ThreeWire.of(channels)
        : Optional.empty();
  }
}
