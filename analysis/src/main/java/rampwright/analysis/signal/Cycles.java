package rampwright.analysis.signal;

/**
 * Half-cycle boundaries of the supply's fundamental over a record.
 *
 * <p>Shape: {@code boundaryS} increases; two neighbours are half a cycle apart, boundary k and
 * boundary k + 2 enclose one cycle. All lie inside the record.
 *
 * @param boundaryS instants of the reference's fundamental zero crossings, s on the trace's time
 *     base
 * @param frequencyHz mean fundamental frequency where the reference had a signal
 * @param reference the channel the zero crossings belong to, by key
 */
public record Cycles(double[] boundaryS, double frequencyHz, String reference) {
  /** Length of a cycle, s. */
  public double cycleS() {
    return 1 / frequencyHz;
  }
}
