package rampwright.analysis.figure;

import java.util.List;
import rampwright.analysis.signal.Noise;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;

/**
 * What samples of current must exceed to be current: six times the noise at rest, the converter's
 * step, and 1 % of the crest.
 *
 * <p>One sample beyond it is not enough, for noise has its outliers: the same phase exceeds it at
 * the next sample too, or another phase does at the same one (current needs a way back). Soft
 * starts begin with pulses that a slow recorder catches only once.
 */
final class SampleFloor {
  private static final double TIMES_NOISE = 6;
  // A coarse converter toggles by a step either way, about a zero that is half a step off.
  private static final double TIMES_STEP = 1.6;
  private static final int LEAST_AT_REST = 32;
  private static final int LOOKED_AT = 20_000;
  private static final double SHARE_OF_CREST = 0.01;

  private final TimeBase time;
  private final List<Samples> phases;
  private final double[] floorA;
  private final double[] zeroA;

  private SampleFloor(TimeBase time, List<Samples> phases, double[] floorA, double[] zeroA) {
    this.time = time;
    this.phases = phases;
    this.floorA = floorA;
    this.zeroA = zeroA;
  }

  static SampleFloor of(Readings r) {
    List<Samples> samples = r.currentSamples();
    double[] floorA = new double[samples.size()];
    for (int p = 0; p < floorA.length; p++) {
      floorA[p] = Math.max(TIMES_NOISE * r.noiseA, least(r, samples.get(p), p));
    }
    return new SampleFloor(r.trace.time(), samples, floorA, new double[floorA.length]);
  }

  /** What no noise need be beyond: the converter's step and a share of the crest. */
  private static double least(Readings r, Samples samples, int phase) {
    double crest = Math.sqrt(2) * Noise.largest(r.current[phase], 0, r.t.length);
    double step = TIMES_STEP * resolution(samples);
    return crest > 0 ? Math.max(step, SHARE_OF_CREST * crest) : step;
  }

  /**
   * The same about the zero a recorder shows in a stretch of rest, with the noise it has there: a
   * zero that drifts must not hide a beginning. This one where the stretch is too short.
   */
  SampleFloor atRest(Readings r, double fromS, double toS) {
    int from = time.firstAtOrAfter(Math.max(fromS, time.atS(0)));
    int to = Math.min(time.size(), time.firstAtOrAfter(toS));
    if (to - from < LEAST_AT_REST) {
      return this;
    }
    double[] floor = floorA.clone();
    double[] zero = zeroA.clone();
    double[] rest = new double[to - from];
    for (int p = 0; p < floor.length; p++) {
      phases.get(p).copy(from, rest, 0, rest.length);
      zero[p] = Noise.median(rest, 0, rest.length);
      double noise = Math.max(Noise.spread(rest, 0, rest.length), deviation(rest, zero[p]));
      if (Double.isNaN(zero[p]) || Double.isNaN(noise)) {
        return this;
      }
      floor[p] = Math.min(floor[p], Math.max(TIMES_NOISE * noise, least(r, phases.get(p), p)));
    }
    return new SampleFloor(time, phases, floor, zero);
  }

  private static double deviation(double[] values, double zero) {
    double sum = 0;
    int n = 0;
    for (double value : values) {
      if (!Double.isNaN(value)) {
        sum += (value - zero) * (value - zero);
        n++;
      }
    }
    return n == 0 ? Double.NaN : Math.sqrt(sum / n);
  }

  private static double resolution(Samples samples) {
    int n = Math.min(samples.size(), LOOKED_AT);
    double[] middle = new double[n];
    samples.copy((samples.size() - n) / 2, middle, 0, n);
    return Noise.resolution(middle, 0, n);
  }

  /**
   * How long a sine that begins at its zero may stay below the floor twice over, s; next to nothing
   * with more than one phase, of which one is always well off its zero.
   */
  double hiddenS(double rmsA, double frequencyHz, double sampleS) {
    if (floorA.length > 1 || !(rmsA > 0)) {
      return 0;
    }
    double share = Math.min(1, floorA[0] / (Math.sqrt(2) * rmsA));
    return (2 * Math.asin(share) / (2 * Math.PI * frequencyHz) + sampleS) / Math.sqrt(2);
  }

  /** Whether current flows at sample {@code i}; {@code beside} is the one next to look at. */
  boolean exceeded(int i, int beside) {
    int at = 0;
    for (int p = 0; p < floorA.length; p++) {
      if (beyond(p, i)) {
        at++;
        if (beyond(p, beside)) {
          return true;
        }
      }
    }
    return at >= 2;
  }

  private boolean beyond(int phase, int i) {
    return Math.abs(phases.get(phase).at(i) - zeroA[phase]) > floorA[phase];
  }

  /**
   * How long current that is first seen at a sample may have flowed before, s: along the rise of
   * the phase seen, from zero to the sample before.
   */
  double riseS(int i) {
    double longest = 0;
    for (int p = 0; p < floorA.length; p++) {
      if (beyond(p, i) && i + 1 < phases.get(p).size()) {
        double now = Math.abs(phases.get(p).at(i) - zeroA[p]);
        double next = Math.abs(phases.get(p).at(i + 1) - zeroA[p]);
        // The next sample may not have been read.
        double rise = next - now > 0.5 * now ? next - now : 0.5 * now;
        double slope = rise / (time.atS(i + 1) - time.atS(i));
        longest = Math.max(longest, now / slope);
      }
    }
    return longest;
  }
}
