package rampwright.analysis.figure;

import java.util.List;
import rampwright.analysis.signal.Noise;
import rampwright.analysis.trace.Samples;

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
  private static final int LOOKED_AT = 20_000;
  private static final double SHARE_OF_CREST = 0.01;

  private final List<Samples> phases;
  private final double[] floorA;

  private SampleFloor(List<Samples> phases, double[] floorA) {
    this.phases = phases;
    this.floorA = floorA;
  }

  static SampleFloor of(Readings r) {
    List<Samples> samples = r.currentSamples();
    double[] floorA = new double[samples.size()];
    for (int p = 0; p < floorA.length; p++) {
      double crest = Math.sqrt(2) * Noise.largest(r.current[p], 0, r.t.length);
      floorA[p] = Math.max(TIMES_NOISE * r.noiseA, TIMES_STEP * resolution(samples.get(p)));
      if (crest > 0) {
        floorA[p] = Math.max(floorA[p], SHARE_OF_CREST * crest);
      }
    }
    return new SampleFloor(samples, floorA);
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
      if (Math.abs(phases.get(p).at(i)) > floorA[p]) {
        at++;
        if (Math.abs(phases.get(p).at(beside)) > floorA[p]) {
          return true;
        }
      }
    }
    return at >= 2;
  }
}
