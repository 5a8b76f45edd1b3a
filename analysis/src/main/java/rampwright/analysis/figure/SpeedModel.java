package rampwright.analysis.figure;

import org.jspecify.annotations.Nullable;

/** Tells when full speed was reached on a trace without a speed channel. */
interface SpeedModel {
  /** No model: the current has to do. */
  SpeedModel NONE = (readings, segment) -> null;

  /** When 95 % of the settled speed was first reached; null when the model cannot tell. */
  @Nullable Estimate fullSpeed(Readings readings, Segment segment);

  /**
   * An instant by a model.
   *
   * @param atS s on the trace's time base
   * @param uncertaintyS standard uncertainty, measured on traces that have speed
   * @param basis what the model rests on, in words
   */
  record Estimate(double atS, double uncertaintyS, String basis) {}
}
