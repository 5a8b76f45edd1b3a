package rampwright.analysis.trace;

/** What the values of currents and voltages in a trace are. */
public enum TraceKind {
  /** Samples of the waveform itself. */
  WAVEFORM("waveform"),
  /** RMS readings of a meter. */
  RMS("rms");

  private final String key;

  TraceKind(String key) {
    this.key = key;
  }

  /** Word used in files and JSON. */
  public String key() {
    return key;
  }
}
