package rampwright.analysis.figure;

import rampwright.analysis.signal.Noise;
import rampwright.analysis.trace.Samples;

/**
 * What a current channel of a waveform shows while no current flows.
 *
 * @param offset mean at rest; 0 where the record shows no rest
 * @param largestRms largest one-cycle RMS about its mean
 * @param from first sample of the rest
 * @param to last sample of it
 */
record RestOffset(double offset, double largestRms, int from, int to) {
  private static final int LEAST_CYCLES = 5;
  // Less of the record's largest than this is noise or an offset's drift, not current.
  private static final double QUIET = 0.05;

  /** Looks for rest at the record's beginning, then at its end. */
  static RestOffset of(Samples samples, int perCycle) {
    int blocks = samples.size() / perCycle;
    double[] mean = new double[blocks];
    double[] rms = new double[blocks];
    for (int b = 0; b < blocks; b++) {
      double sum = 0;
      double squares = 0;
      int n = 0;
      for (int i = b * perCycle; i < (b + 1) * perCycle; i++) {
        double value = samples.at(i);
        if (!Double.isNaN(value)) {
          sum += value;
          squares += value * value;
          n++;
        }
      }
      mean[b] = n > 0 ? sum / n : Double.NaN;
      rms[b] = n > 0 ? Math.sqrt(Math.max(0, squares / n - mean[b] * mean[b])) : Double.NaN;
    }
    double largest = blocks == 0 ? 0 : Noise.largest(Noise.medianOfThree(rms), 0, blocks);
    int head = 0;
    while (head < blocks && rms[head] < QUIET * largest) {
      head++;
    }
    // The last quiet block may already hold the current's beginning.
    if (head - 1 >= LEAST_CYCLES) {
      return rest(mean, largest, 0, head - 1, perCycle);
    }
    int tail = blocks;
    while (tail > 0 && rms[tail - 1] < QUIET * largest) {
      tail--;
    }
    return blocks - tail - 1 >= LEAST_CYCLES
        ? rest(mean, largest, tail + 1, blocks, perCycle)
        : new RestOffset(0, largest, 0, 0);
  }

  private static RestOffset rest(double[] mean, double largest, int from, int to, int perCycle) {
    return new RestOffset(
        Noise.median(mean, from, to), largest, from * perCycle, to * perCycle - 1);
  }
}
