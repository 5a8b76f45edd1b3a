package rampwright.analysis.figure;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.signal.Noise;
import rampwright.analysis.signal.WindowIntegral;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;
import rampwright.analysis.trace.Trace;

/**
 * Speed against time, each value stamped at the middle of what it was averaged over. Missing
 * readings are left out, so times may be uneven.
 *
 * @param timeS instants, increasing
 * @param rpm speed, rpm, same length
 * @param noiseRpm standard deviation of the noise on {@code rpm}
 * @param resolutionRpm smallest step the channel shows
 * @param intervalS typical interval of {@code timeS}
 */
record SpeedTrack(
    double[] timeS, double[] rpm, double noiseRpm, double resolutionRpm, double intervalS) {

  /** Speed of a trace; a waveform record's dense samples are averaged over {@code binS}. */
  static @Nullable SpeedTrack of(Trace trace, double binS) {
    Samples samples = trace.channel(ChannelName.SPEED);
    if (samples == null) {
      return null;
    }
    TimeBase time = trace.time();
    int size = time.size();
    double stepS = time.typicalStepS();
    double[] t;
    double[] n;
    int count = 0;
    if (binS > 2 * stepS) {
      double startS = time.atS(0);
      int bins = (int) Math.floor((time.atS(size - 1) - startS) / binS);
      t = new double[bins];
      n = new double[bins];
      for (int b = 0; b < bins; b++) {
        double fromS = startS + b * binS;
        double mean = WindowIntegral.value(time, samples, fromS, fromS + binS) / binS;
        if (!Double.isNaN(mean)) {
          t[count] = fromS + binS / 2;
          n[count++] = mean;
        }
      }
    } else {
      t = new double[size];
      n = new double[size];
      for (int i = 0; i < size; i++) {
        double value = samples.at(i);
        if (!Double.isNaN(value)) {
          t[count] = time.atS(i);
          n[count++] = value;
        }
      }
    }
    if (count < 5) {
      return null;
    }
    double[] times = Arrays.copyOf(t, count);
    double[] rpm = Arrays.copyOf(n, count);
    double intervalS = Math.max(stepS, binS > 2 * stepS ? binS : 0);
    return new SpeedTrack(
        times, rpm, Noise.sigma(rpm, 0, count), Noise.resolution(rpm, 0, count), intervalS);
  }

  int size() {
    return timeS.length;
  }

  /** Index of the first value at or after {@code atS}. */
  int firstAtOrAfter(double atS) {
    int i = Arrays.binarySearch(timeS, atS);
    return i >= 0 ? i : -i - 1;
  }

  /** Mean over [fromS, toS]; NaN when fewer than two values lie in it. */
  double mean(double fromS, double toS) {
    double sum = 0;
    int n = 0;
    for (int i = firstAtOrAfter(fromS); i < timeS.length && timeS[i] <= toS; i++) {
      sum += rpm[i];
      n++;
    }
    return n < 2 ? Double.NaN : sum / n;
  }

  /** Linear interpolation; NaN outside the track. */
  double at(double atS) {
    int i = firstAtOrAfter(atS);
    if (i < timeS.length && timeS[i] == atS) {
      return rpm[i];
    }
    if (i == 0 || i == timeS.length) {
      return Double.NaN;
    }
    double share = (atS - timeS[i - 1]) / (timeS[i] - timeS[i - 1]);
    return rpm[i - 1] + share * (rpm[i] - rpm[i - 1]);
  }

  /** Least noticeable speed against the noise of the second before an instant. */
  double floorAtRest(double beforeS) {
    int to = firstAtOrAfter(beforeS);
    int from = firstAtOrAfter(beforeS - 1);
    double noise = to - from >= 8 ? Noise.sigma(rpm, from, to) : noiseRpm;
    return Math.max(5 * Math.min(noise, noiseRpm), 1.5 * resolutionRpm);
  }

  /** Least noticeable speed: what a shaft must exceed to be said to turn. */
  double floorRpm() {
    return Math.max(4 * noiseRpm, 1.5 * resolutionRpm);
  }
}
