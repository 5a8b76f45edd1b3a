package rampwright.exam.wave;

import java.util.Arrays;

/**
 * What happened at waveform level, without a meter: even samples of currents, line-to-line voltages
 * on the supply side, and speed; and the instants. NaN: it did not happen.
 */
public final class WaveRecord {
  private final double rateHz;
  private final float[][] channels = new float[7][1 << 14];
  private int size;
  double inceptionS = Double.NaN;
  double breakawayS = Double.NaN;
  double bypassS = Double.NaN;
  double stopBeginS = Double.NaN;
  double releaseS = Double.NaN;
  double rotorLossJ;
  boolean completed;
  boolean tripped;
  boolean aborted;

  WaveRecord(double rateHz) {
    this.rateHz = rateHz;
  }

  void keep(double[] sample) {
    if (size == channels[0].length) {
      for (int c = 0; c < 7; c++) {
        channels[c] = Arrays.copyOf(channels[c], 2 * size);
      }
    }
    for (int c = 0; c < 7; c++) {
      channels[c][size] = (float) sample[c];
    }
    size++;
  }

  public double rateHz() {
    return rateHz;
  }

  public int size() {
    return size;
  }

  /** i1 i2 i3 v12 v23 v31 speed: 0 to 6; the speed in 1/min. */
  public double value(int channel, int index) {
    return channels[channel][index];
  }

  public boolean completed() {
    return completed;
  }

  public double inceptionS() {
    return inceptionS;
  }

  public double releaseS() {
    return releaseS;
  }

  /**
   * RMS over the cycle ending at each half cycle (index n: time (n + 2) / 2 f), channel as above.
   */
  public double[] cycleRms(int channel, double frequencyHz) {
    double[] sums = new double[size + 1];
    for (int n = 0; n < size; n++) {
      double v = channels[channel][n];
      sums[n + 1] = sums[n] + v * v;
    }
    double cycle = rateHz / frequencyHz;
    int many = (int) Math.floor(size / cycle * 2) - 1;
    double[] rms = new double[Math.max(0, many)];
    for (int n = 0; n < rms.length; n++) {
      double to = (n + 2) * cycle / 2;
      rms[n] = Math.sqrt((at(sums, to) - at(sums, to - cycle)) / cycle);
    }
    return rms;
  }

  private static double at(double[] sums, double position) {
    int n = (int) Math.min(sums.length - 2, Math.max(0, Math.floor(position)));
    return sums[n] + (position - n) * (sums[n + 1] - sums[n]);
  }
}
