package rampwright.app.usecase;

import rampwright.analysis.figure.AnalysisOptions;
import rampwright.analysis.figure.AnalyzedTrace;
import rampwright.analysis.figure.MotorContext;
import rampwright.analysis.figure.SpeedModel;
import rampwright.analysis.trace.Trace;

/** Port: the analysis, so that use cases can be tested with made-up figures. */
public interface Analyzer {
  /** Everything that can be said of a trace; the model dates full speed where speed is missing. */
  AnalyzedTrace analyze(Trace trace, MotorContext motor, AnalysisOptions options, SpeedModel model);
}
