package rampwright.analysis.trace;

/** The time axis of a trace, in seconds on the trace's own time base; strictly increasing. */
public sealed interface TimeBase permits EvenTime, ListedTime {

  /** Number of instants. */
  int size();

  /** Time of sample {@code i} in seconds. */
  double atS(int i);

  /** Index of the first sample at or after {@code timeS}; {@link #size()} when there is none. */
  int firstAtOrAfter(double timeS);

  /** Median interval between samples in seconds; NaN with fewer than two samples. */
  double typicalStepS();

  /** Evenly spaced instants. */
  static TimeBase even(double startS, double stepS, int size) {
    return new EvenTime(startS, stepS, size);
  }

  /** Instants listed one by one; they must increase. */
  static TimeBase listed(Samples timesS) {
    return new ListedTime(timesS);
  }
}
