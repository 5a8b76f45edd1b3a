package rampwright.analysis.figure;

import java.util.List;
import rampwright.analysis.signal.Noise;
import rampwright.analysis.trace.Samples;

/**
 * What samples of current must exceed to be current: six times the noise at rest, and 1 % of the
 * crest.
 *
 * <p>One sample beyond it is not enough, for noise has its outliers: the same phase exceeds it at
 * the next sample too, or another phase does at the same one (current needs a way back). Soft
 * starts begin with pulses that a slow recorder catches only once.
 */
final class SampleFloor {
  private static final double TIMES_NOISE = 6;
  private static final double SHARE_OF_CREST = 0.01;

  private final List<Samples> phases;
  private final double[] floorA;

  private SampleFloor(List<Samples> phases, double[] floorA) {
    this.phases = phases;
    this.floorA = floorA;
  }

  static SampleFloor of(Readings r) {
    double[] floorA = new double[r.phases.size()];
    for (int p = 0; p < floorA.length; p++) {
      double crest = Math.sqrt(2) * Noise.largest(r.current[p], 0, r.t.length);
      floorA[p] = TIMES_NOISE * r.noiseA;
      if (crest > 0) {
        floorA[p] = Math.max(floorA[p], SHARE_OF_CREST * crest);
      }
    }
    return new SampleFloor(r.currentSamples(), floorA);
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
