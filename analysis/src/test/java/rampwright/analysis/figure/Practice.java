package rampwright.analysis.figure;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import rampwright.analysis.trace.Trace;

/** The practice traces, for tests of other packages. */
public final class Practice {
  private Practice() {}

  /** Their folder, where it is there. */
  public static Optional<Path> folder() {
    return SharedData.folder("practice");
  }

  /** The reference tables' folder, where it is there. */
  public static Optional<Path> reference() {
    return SharedData.folder("reference");
  }

  /** The sheet of an asset folder. */
  public static MotorContext motor(Path asset) throws IOException {
    return SharedData.motor(asset.resolve("asset.toml"));
  }

  /** Truth numbers of a trial folder. */
  public static Map<String, double[]> truth(Path trial) throws IOException {
    return SharedData.truth(trial.resolve("truth.json"));
  }

  /** A trial's trace with everything found in it. */
  public static AnalyzedTrace analyze(Path trace, MotorContext motor) throws IOException {
    return TraceAnalyzer.analyze(SharedData.trace(trace), motor, AnalysisOptions.DEFAULT);
  }

  /** A made trace of three balanced readings, analysed as a motor of 100 A. */
  public static AnalyzedTrace made(
      double lengthS, double rateHz, java.util.function.DoubleUnaryOperator rmsA) {
    Trace trace = new MadeTrace(lengthS, rateHz).withThreeReadings(rmsA).build();
    return MadeTrace.analyze(trace);
  }
}
