package rampwright.analysis.trace;

/**
 * Evenly spaced instants: {@code startS + i * stepS}.
 *
 * @param startS time of the first sample, s
 * @param stepS interval, s, above 0
 * @param size number of samples
 */
public record EvenTime(double startS, double stepS, int size) implements TimeBase {
  public EvenTime {
    if (!(stepS > 0) || !Double.isFinite(stepS) || !Double.isFinite(startS) || size < 0) {
      throw new IllegalArgumentException(
          "even time base: start " + startS + " s, step " + stepS + " s, size " + size);
    }
  }

  @Override
  public double atS(int i) {
    return startS + i * stepS;
  }

  @Override
  public int firstAtOrAfter(double timeS) {
    double index = Math.ceil((timeS - startS) / stepS);
    int i = (int) Math.max(0, Math.min(size, index));
    // The division may be off by one in its last bit; the answer must not be.
    while (i > 0 && atS(i - 1) >= timeS) {
      i--;
    }
    while (i < size && atS(i) < timeS) {
      i++;
    }
    return i;
  }

  @Override
  public double typicalStepS() {
    return size < 2 ? Double.NaN : stepS;
  }
}
