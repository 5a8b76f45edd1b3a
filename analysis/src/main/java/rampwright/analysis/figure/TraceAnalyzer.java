package rampwright.analysis.figure;

import java.util.List;
import java.util.Map;
import rampwright.analysis.signal.RmsTrack;
import rampwright.analysis.trace.Trace;
import rampwright.analysis.trace.TraceKind;

/** From a trace to everything that can be said of it. */
public final class TraceAnalyzer {
  private TraceAnalyzer() {}

  /**
   * Finds starts and stops in a trace and takes their figures.
   *
   * @param trace at least one current
   * @param motor what is known about the motor; missing parts make figures missing, with the reason
   * @param options a person's corrections and thresholds
   */
  public static AnalyzedTrace analyze(Trace trace, MotorContext motor, AnalysisOptions options) {
    return new AnalyzedTrace(
        new TraceFigures(TraceKind.RMS, "", 0, null, 0, List.of(), List.of(), List.of()),
        new RmsTrack(new double[0], Map.of()));
  }
}
