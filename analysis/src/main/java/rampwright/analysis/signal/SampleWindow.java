package rampwright.analysis.signal;

/**
 * A stretch of an evenly sampled record, as fractional sample positions.
 *
 * <p>A cycle rarely holds a whole number of samples (60 Hz at 5050 Hz: 84.17), so both ends may lie
 * between samples. Position 0 is the first sample of the record.
 *
 * @param from start, in samples from the first one of the record
 * @param to end, in samples from the first one of the record; the stretch is {@code [from, to)}
 */
public record SampleWindow(double from, double to) {
  public SampleWindow {
    if (!(from >= 0) || !(to > from) || to == Double.POSITIVE_INFINITY) {
      throw new IllegalArgumentException(
          "window: from " + from + " to " + to + " samples; need 0 <= from < to, both finite");
    }
  }

  /** Length in samples; not a whole number in general. */
  public double length() {
    return to - from;
  }
}
