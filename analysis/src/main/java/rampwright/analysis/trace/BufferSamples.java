package rampwright.analysis.trace;

import java.nio.DoubleBuffer;

/** Samples in a buffer, which may be a mapped file. */
final class BufferSamples implements Samples {
  private final DoubleBuffer values;

  BufferSamples(DoubleBuffer values) {
    this.values = values;
  }

  @Override
  public int size() {
    return values.limit();
  }

  @Override
  public double at(int i) {
    return values.get(i);
  }

  @Override
  public void copy(int from, double[] into, int offset, int count) {
    values.get(from, into, offset, count);
  }
}
