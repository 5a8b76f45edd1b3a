package rampwright.analysis.figure;

import org.jspecify.annotations.Nullable;
import rampwright.analysis.signal.RmsTrack;

/** Tells when full speed was reached on a trace without a speed channel. */
public interface SpeedModel {
  /** No model: the current has to do. */
  SpeedModel NONE = (track, span) -> null;

  /**
   * When 95 % of the settled speed was first reached.
   *
   * @param track RMS currents and voltages
   * @param span the flow of current looked at
   * @return null when the model cannot tell
   */
  @Nullable Estimate fullSpeed(RmsTrack track, Span span);

  /**
   * A completed start in a trace.
   *
   * @param inceptionS inception, s on the trace's time base
   * @param runEndS the run ends (stop begin, or the record's end)
   * @param flowEndS current ceases, or the record's end
   */
  record Span(double inceptionS, double runEndS, double flowEndS) {}

  /**
   * An instant by a model.
   *
   * @param atS s on the trace's time base
   * @param uncertaintyS standard uncertainty, measured on traces that have speed
   * @param basis what the model rests on, in words
   */
  record Estimate(double atS, double uncertaintyS, String basis) {}
}
