package rampwright.analysis.figure;

import java.util.LinkedHashMap;
import java.util.Map;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.signal.Noise;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;

/** Figures of the phase currents over a window. */
final class CurrentFigures {
  private CurrentFigures() {}

  /** Largest instantaneous magnitude; waveforms only. */
  static Measured crest(Readings r, double fromS, double toS) {
    if (!r.isWaveform()) {
      return Measured.missing("A", "RMS readings have no instantaneous values");
    }
    TimeBase time = r.trace.time();
    int from = time.firstAtOrAfter(fromS);
    int to = Math.min(time.size(), time.firstAtOrAfter(toS));
    Map<String, Double> phases = new LinkedHashMap<>();
    String highest = null;
    double crest = 0;
    for (ChannelName phase : r.phases) {
      Samples samples = r.trace.channel(phase);
      if (samples == null) {
        continue;
      }
      double largest = 0;
      for (int i = from; i < to; i++) {
        double magnitude = Math.abs(samples.at(i));
        if (magnitude > largest) {
          largest = magnitude;
        }
      }
      phases.put(phase.phase(), largest);
      if (highest == null || largest > crest) {
        crest = largest;
        highest = phase.phase();
      }
    }
    if (highest == null || from >= to) {
      return Measured.missing("A", "no samples between inception and full speed");
    }
    // Between two samples the true crest lies up to 1 - cos(pi f dt) higher.
    double between =
        r.cycles == null ? 0 : 1 - Math.cos(Math.PI * r.cycles.frequencyHz() * r.sampleS);
    return Measured.of(
            crest,
            "A",
            Accuracy.ofCurrent(crest, Math.hypot(2 * r.noiseA, Accuracy.ofWidth(between * crest))),
            fromS,
            toS,
            "largest instantaneous magnitude; meter class 1 assumed")
        .withPhases(highest, phases);
  }

  /** Integral of i^2 dt, the mean of the squares of the measured phases, A^2 s. */
  static Measured i2t(Readings r, double fromS, double fromU, double toS, double toU) {
    Map<String, Double> phases = new LinkedHashMap<>();
    double sum = 0;
    for (int p = 0; p < r.phases.size(); p++) {
      double one = CurrentIntegral.ofPhase(r, p, fromS, toS);
      if (!Double.isNaN(one)) {
        phases.put(r.phases.get(p).phase(), one);
        sum += one;
      }
    }
    if (phases.isEmpty()) {
      return Measured.missing("A²s", "no current reading in the window");
    }
    double value = sum / phases.size();
    double u = 2 * Accuracy.GAIN * value / Math.sqrt(phases.size());
    u = Math.hypot(u, squareAt(r, fromS + r.stepS) * fromU);
    u = Math.hypot(u, (mean(r, fromS, toS + toU) - mean(r, fromS, Math.max(fromS, toS - toU))) / 2);
    u = Math.hypot(u, CurrentIntegral.betweenReadings(r, fromS, toS));
    u = Math.hypot(u, CurrentIntegral.gapUncertainty(r, fromS, toS));
    u = Math.hypot(u, 2 * Math.sqrt(value * Math.max(0, toS - fromS)) * r.rest.uncertaintyA());
    String rule =
        (r.isWaveform() ? "integral over the samples" : "trapezoids between RMS readings")
            + ", mean of the squares of "
            + phases.size()
            + (phases.size() == 1 ? " phase" : " phases")
            + "; meter class 1 assumed";
    rule += r.rest.said() + r.gaps.said(fromS, toS);
    return Measured.of(value, "A²s", u, fromS, toS, rule).withPhases(null, phases);
  }

  /** Mean over the phases of the integral of i^2 dt, A^2 s; 0 when none was read. */
  private static double mean(Readings r, double fromS, double toS) {
    double sum = 0;
    int n = 0;
    for (int p = 0; p < r.phases.size(); p++) {
      double one = CurrentIntegral.ofPhase(r, p, fromS, toS);
      if (!Double.isNaN(one)) {
        sum += one;
        n++;
      }
    }
    return n == 0 ? 0 : sum / n;
  }

  /** Mean of the phases' squares near an instant, A^2. */
  static double squareAt(Readings r, double atS) {
    int k = Math.min(r.t.length - 1, Math.max(0, r.firstAtOrAfter(atS)));
    double sum = 0;
    int n = 0;
    for (double[] phase : r.current) {
      if (!Double.isNaN(phase[k])) {
        sum += phase[k] * phase[k];
        n++;
      }
    }
    return n == 0 ? 0 : sum / n;
  }

  /** RMS over the window from its i2t. */
  static Measured rms(Readings r, Measured i2t, double fromU, double toU) {
    Double value = i2t.value();
    Double fromS = i2t.fromS();
    Double toS = i2t.toS();
    if (value == null || fromS == null || toS == null) {
      return Measured.missing("A", String.valueOf(i2t.why()));
    }
    double tookS = toS - fromS;
    if (!(tookS > 0)) {
      return Measured.missing("A", "the window is empty");
    }
    double rms = Math.sqrt(value / tookS);
    Map<String, Double> phases = new LinkedHashMap<>();
    i2t.phases().forEach((phase, one) -> phases.put(phase, Math.sqrt(one / tookS)));
    double shortS = Math.max(tookS - toU, tookS / 2);
    double later = Math.sqrt(mean(r, fromS, toS + toU) / (tookS + toU));
    double sooner = Math.sqrt(mean(r, fromS, fromS + shortS) / shortS);
    double byEnd = toU > 0 ? Math.abs(later - sooner) / 2 : 0;
    double byGap =
        Math.hypot(
                CurrentIntegral.gapUncertainty(r, fromS, toS),
                CurrentIntegral.betweenReadings(r, fromS, toS))
            / (2 * rms * tookS);
    double u = Math.hypot(Accuracy.ofCurrent(rms, byGap), byEnd);
    // A window that begins sooner holds as much more of what flowed there; a slow meter's readings
    // add up to the same whatever the window.
    double atBegin = r.averaging.isSlow(r.stepS) ? 0 : squareAt(r, fromS) / (rms * rms);
    u = Math.hypot(u, 0.5 * rms * Math.abs(1 - atBegin) * Math.min(1, fromU / tookS));
    if (CurrentIntegral.ceases(r, toS)) {
      u = Math.hypot(u, 0.5 * rms * Math.min(1, toU / tookS));
    }
    u = Math.hypot(u, r.rest.uncertaintyA());
    return Measured.of(
            rms,
            "A",
            u,
            fromS,
            toS,
            "sqrt(i2t / window); meter class 1 assumed" + r.rest.said() + r.gaps.said(fromS, toS))
        .withPhases(null, phases);
  }

  /** 100 x largest deviation from the mean of the phases over the mean, median over the window. */
  static Measured unbalance(Readings r, double fromS, double toS) {
    if (r.phases.size() < 3) {
      return Measured.missing("%", "needs three phase currents");
    }
    double settleS = r.isWaveform() ? 2 * r.stepS : r.stepS;
    int from = r.firstAtOrAfter(fromS + settleS);
    int to = Math.min(r.t.length, r.firstAtOrAfter(toS));
    double[] each = new double[Math.max(0, to - from)];
    int n = 0;
    for (int k = from; k < to; k++) {
      double one = unbalanceAt(r.current, k, r.thresholdA);
      if (!Double.isNaN(one)) {
        each[n++] = one;
      }
    }
    if (n < 3) {
      return Measured.missing("%", "too few readings of all three phases in the start");
    }
    double value = Noise.median(each, 0, n);
    // Three gains of the assumed class stand against each other.
    double u = Math.hypot(100 * Accuracy.GAIN, Noise.sigma(each, 0, n) / Math.sqrt(n));
    return Measured.of(
        value, "%", u, fromS, toS, "largest deviation from the mean of the phases / mean, median");
  }

  /** Unbalance at one stamp, %; NaN when a phase is missing or the mean does not flow. */
  static double unbalanceAt(double[][] phases, int k, double thresholdA) {
    double mean = (phases[0][k] + phases[1][k] + phases[2][k]) / 3;
    if (!(mean > thresholdA)) {
      return Double.NaN;
    }
    double most = 0;
    for (double[] phase : phases) {
      most = Math.max(most, Math.abs(phase[k] - mean));
    }
    return 100 * most / mean;
  }
}
