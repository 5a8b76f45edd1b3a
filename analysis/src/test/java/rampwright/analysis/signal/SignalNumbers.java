package rampwright.analysis.signal;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;

/** Prints the measured numbers quoted in analysis/docs/signal.md. Run by hand; not a test. */
final class SignalNumbers {
  private static final double TWO_PI = 2 * Math.PI;
  private static final double[] LENGTHS = {16.6667, 84.1667, 166.6667, 200.12};
  private static final int FINE = 36_000;

  private SignalNumbers() {}

  public static void main(String[] args) {
    cleanSine();
    wrongFrequency();
    steps();
    speed();
  }

  private static void cleanSine() {
    Random random = new Random(1);
    for (double length : LENGTHS) {
      double plain = 0;
      double ours = 0;
      double floor = 0;
      for (int run = 0; run < 300; run++) {
        double phase = TWO_PI * random.nextDouble();
        double from = 5 + random.nextDouble();
        SampleWindow window = new SampleWindow(from, from + length);
        double[] x = sine(length, phase, (int) (length + 12));
        int orders = Harmonics.highestOrder(window);
        CycleSpectrum spectrum = OneCycleDft.of(Samples.of(x), window, orders);
        plain = Math.max(plain, plainDistortion(x, window, orders));
        ours = Math.max(ours, Harmonics.totalDistortion(spectrum));
        floor = Math.max(floor, spectrum.distortionRms() / spectrum.magnitude(1));
      }
      print(
          "sine, %.2f a cycle: trapezoid %.2e, ours %.2e, I_H/I1 %.2e", length, plain, ours, floor);
    }
  }

  private static void wrongFrequency() {
    for (double share : new double[] {0.001, 0.01}) {
      double distortion = 0;
      double rms = 0;
      double mean = 0;
      for (double phase = 0; phase < TWO_PI; phase += 0.01) {
        double[] x = sine(200 * (1 + share), phase, 212);
        CycleSpectrum s = OneCycleDft.of(Samples.of(x), new SampleWindow(5, 205), 40);
        distortion = Math.max(distortion, Harmonics.totalDistortion(s));
        rms = Math.max(rms, Math.abs(s.rms() * Math.sqrt(2) - 1));
        mean = Math.max(mean, Harmonics.meanShare(s));
      }
      print("off by %.3f: distortion %.2e, rms %.2e, mean %.2e", share, distortion, rms, mean);
    }
  }

  private static void steps() {
    Random random = new Random(1);
    for (double length : LENGTHS) {
      for (double deg : new double[] {60, 90, 120}) {
        double[] fine = PhaseControl.star(deg, FINE, -1)[0].toArray();
        CycleSpectrum truth =
            OneCycleDft.of(Samples.of(fine), new SampleWindow(FINE, 2 * FINE), 40);
        double rms = 0;
        double first = 0;
        double even = 0;
        double mean = 0;
        for (int run = 0; run < 300; run++) {
          double offset = FINE * random.nextDouble();
          double[] x = new double[(int) length + 12];
          for (int k = 0; k < x.length; k++) {
            x[k] = fine[FINE + (int) ((offset + k * FINE / length) % FINE)];
          }
          double from = 5 + random.nextDouble();
          SampleWindow window = new SampleWindow(from, from + length);
          CycleSpectrum s = OneCycleDft.of(Samples.of(x), window, Harmonics.highestOrder(window));
          rms = Math.max(rms, Math.abs(s.rms() / truth.rms() - 1));
          first = Math.max(first, Math.abs(s.magnitude(1) / truth.magnitude(1) - 1));
          even = Math.max(even, Harmonics.evenShare(s));
          mean = Math.max(mean, Harmonics.meanShare(s));
        }
        print(
            "steps, %.2f a cycle, %.0f degrees: rms %.2e, first %.2e, even %.2e, mean %.2e",
            length, deg, rms, first, even, mean);
      }
    }
  }

  private static void speed() {
    int size = 600_000;
    Map<ChannelName, Samples> channels = new EnumMap<>(ChannelName.class);
    for (int p = 0; p < 3; p++) {
      double turn = p * TWO_PI / 3;
      channels.put(ChannelName.LINE_VOLTAGES.get(p), Samples.owning(sine(200.04, -turn, size)));
      channels.put(ChannelName.CURRENTS.get(p), Samples.owning(sine(200.04, 5 - turn, size)));
    }
    ThreeWire circuit = ThreeWire.of(channels).orElseThrow();
    List<SampleWindow> windows = new ArrayList<>();
    for (double from = 0; from + 200.04 <= size - 1; from += 100.02) {
      windows.add(new SampleWindow(from, from + 200.04));
    }
    for (int orders : new int[] {1, 25, 40}) {
      for (int run = 0; run < 4; run++) {
        long start = System.nanoTime();
        double sum = 0;
        for (SampleWindow window : windows) {
          OneCycleDft dft = new OneCycleDft(window, size, orders);
          for (Samples samples : channels.values()) {
            sum += dft.of(samples).magnitude(orders);
          }
        }
        print("6 channels, orders to %d: %.3f s (%.1e)", orders, since(start), sum);
      }
    }
    for (int run = 0; run < 4; run++) {
      long start = System.nanoTime();
      double[] torque = new AirGapTorque(4, 0.1).meansNm(circuit, 1e-4, windows);
      double torqueS = since(start);
      start = System.nanoTime();
      double sum = 0;
      for (SampleWindow window : windows) {
        sum += ThreeWirePower.over(circuit, new OneCycleDft(window, size, 1)).activePowerW();
      }
      print("torque %.3f s, power %.3f s (%.1e)", torqueS, since(start), sum + torque[99]);
    }
  }

  /** Distortion by the trapezoid rule over the samples and the cut ends, on straight lines. */
  private static double plainDistortion(double[] x, SampleWindow window, int orders) {
    List<Double> at = new ArrayList<>();
    at.add(window.from());
    for (int k = (int) window.from() + 1; k < window.to(); k++) {
      at.add((double) k);
    }
    at.add(window.to());
    double first = 0;
    double sum = 0;
    for (int h = 1; h <= orders; h++) {
      double re = 0;
      double im = 0;
      for (int k = 0; k < at.size(); k++) {
        double t = at.get(k);
        double weight = (at.get(Math.min(k + 1, at.size() - 1)) - at.get(Math.max(k - 1, 0))) / 2;
        double value = x[(int) t] + (t - (int) t) * (x[(int) t + 1] - x[(int) t]);
        double angle = TWO_PI * h * (t - window.from()) / window.length();
        re += weight * value * Math.cos(angle);
        im += weight * value * Math.sin(angle);
      }
      double square = re * re + im * im;
      first = h == 1 ? square : first;
      sum += h == 1 ? 0 : square;
    }
    return Math.sqrt(sum / first);
  }

  private static double[] sine(double length, double phase, int size) {
    double[] x = new double[size];
    for (int k = 0; k < size; k++) {
      x[k] = Math.sin(TWO_PI * k / length + phase);
    }
    return x;
  }

  private static double since(long start) {
    return (System.nanoTime() - start) / 1e9;
  }

  private static void print(String format, Object... values) {
    System.out.println(String.format(Locale.ROOT, format, values));
  }
}
