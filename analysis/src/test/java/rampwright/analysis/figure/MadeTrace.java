package rampwright.analysis.figure;

import java.util.EnumMap;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Provenance;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;
import rampwright.analysis.trace.Trace;

/** Builds traces from closed forms, whose figures are known exactly. */
final class MadeTrace {
  private final double startS;
  private final double stepS;
  private final int size;
  private final Map<ChannelName, Samples> channels = new EnumMap<>(ChannelName.class);

  MadeTrace(double lengthS, double rateHz) {
    this(0, lengthS, rateHz);
  }

  MadeTrace(double startS, double lengthS, double rateHz) {
    this.startS = startS;
    this.stepS = 1 / rateHz;
    this.size = (int) Math.round(lengthS * rateHz) + 1;
  }

  MadeTrace with(ChannelName name, DoubleUnaryOperator ofTimeS) {
    double[] values = new double[size];
    for (int i = 0; i < size; i++) {
      values[i] = ofTimeS.applyAsDouble(startS + i * stepS);
    }
    channels.put(name, Samples.owning(values));
    return this;
  }

  /** Three balanced currents, each the product of an RMS course and a sine 120 degrees apart. */
  MadeTrace withThreePhase(DoubleUnaryOperator rmsA, double frequencyHz) {
    for (int p = 0; p < 3; p++) {
      double lag = p * 2 * Math.PI / 3;
      with(
          ChannelName.CURRENTS.get(p),
          t ->
              Math.sqrt(2) * rmsA.applyAsDouble(t) * Math.sin(2 * Math.PI * frequencyHz * t - lag));
    }
    return this;
  }

  MadeTrace withThreeReadings(DoubleUnaryOperator rmsA) {
    for (ChannelName phase : ChannelName.CURRENTS) {
      with(phase, rmsA);
    }
    return this;
  }

  Trace build() {
    return new Trace(
        TimeBase.even(startS, stepS, size), channels, null, Provenance.computed("made"));
  }

  /** A motor of 100 A, 1480 rpm, 50 Hz, 400 V. */
  static MotorContext motor() {
    return new MotorContext(
        100.0, 1480.0, 50.0, 400.0, 400.0, 6.0, 20.0, 10.0, 0.1, 3.0, 500.0, 1000.0, 2.0, 6.0,
        false, 0);
  }

  static AnalyzedTrace analyze(Trace trace) {
    return TraceAnalyzer.analyze(trace, motor(), AnalysisOptions.DEFAULT);
  }
}
