package rampwright.app.usecase;

import rampwright.analysis.figure.AnalysisOptions;
import rampwright.analysis.figure.AnalyzedTrace;
import rampwright.analysis.figure.MotorContext;
import rampwright.analysis.trace.Trace;

/** Port: the analysis, so that use cases can be tested with made-up figures. */
public interface Analyzer {
  /** Everything that can be said of a trace. */
  AnalyzedTrace analyze(Trace trace, MotorContext motor, AnalysisOptions options);
}
