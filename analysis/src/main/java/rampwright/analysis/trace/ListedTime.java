package rampwright.analysis.trace;

import java.util.Arrays;

/** Instants listed one by one. */
public final class ListedTime implements TimeBase {
  private static final int STEPS_LOOKED_AT = 10_000;

  private final Samples timesS;
  private final double typicalStepS;

  ListedTime(Samples timesS) {
    for (int i = 1; i < timesS.size(); i++) {
      if (!(timesS.at(i) > timesS.at(i - 1))) {
        throw new IllegalArgumentException(
            "times must increase: sample "
                + i
                + " is at "
                + timesS.at(i)
                + " s after "
                + timesS.at(i - 1)
                + " s");
      }
    }
    this.timesS = timesS;
    this.typicalStepS = medianStep(timesS);
  }

  private static double medianStep(Samples timesS) {
    int steps = timesS.size() - 1;
    if (steps < 1) {
      return Double.NaN;
    }
    int stride = Math.max(1, steps / STEPS_LOOKED_AT);
    double[] sample = new double[(steps + stride - 1) / stride];
    for (int k = 0; k < sample.length; k++) {
      sample[k] = timesS.at(k * stride + 1) - timesS.at(k * stride);
    }
    Arrays.sort(sample);
    return sample[sample.length / 2];
  }

  @Override
  public int size() {
    return timesS.size();
  }

  @Override
  public double atS(int i) {
    return timesS.at(i);
  }

  @Override
  public int firstAtOrAfter(double timeS) {
    int low = 0;
    int high = timesS.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (timesS.at(middle) < timeS) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }

  @Override
  public double typicalStepS() {
    return typicalStepS;
  }
}
