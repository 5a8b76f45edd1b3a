package rampwright.analysis.trace;

/** Samples in an array. */
final class ArraySamples implements Samples {
  private final double[] values;

  ArraySamples(double[] values) {
    this.values = values;
  }

  @Override
  public int size() {
    return values.length;
  }

  @Override
  public double at(int i) {
    return values[i];
  }

  @Override
  public void copy(int from, double[] into, int offset, int count) {
    System.arraycopy(values, from, into, offset, count);
  }
}
