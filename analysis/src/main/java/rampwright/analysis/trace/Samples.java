package rampwright.analysis.trace;

import java.nio.DoubleBuffer;

/**
 * The numbers of one channel in time order. NaN marks a sample that has no good value; nothing else
 * does, and 0 is a reading of zero.
 *
 * <p>Two stores stand behind it: an array, and a buffer that may map a file, so that a trace can be
 * larger than the heap.
 */
public sealed interface Samples permits ArraySamples, BufferSamples {

  /** Number of samples. */
  int size();

  /** Value of sample {@code i}, 0 based; NaN where there is no good value. */
  double at(int i);

  /** Copies {@code count} samples from {@code from} on into {@code into} at {@code offset}. */
  void copy(int from, double[] into, int offset, int count);

  /** All samples in a new array. Only for traces known to be small. */
  default double[] toArray() {
    double[] all = new double[size()];
    copy(0, all, 0, all.length);
    return all;
  }

  /** Samples held in an array, which is copied. */
  static Samples of(double... values) {
    return new ArraySamples(values.clone());
  }

  /** Samples held in an array that the caller gives up and will not write to again. */
  static Samples owning(double[] values) {
    return new ArraySamples(values);
  }

  /** Samples held in a buffer, from its position to its limit, that nobody will write to again. */
  static Samples owning(DoubleBuffer values) {
    return new BufferSamples(values.slice().asReadOnlyBuffer());
  }
}
