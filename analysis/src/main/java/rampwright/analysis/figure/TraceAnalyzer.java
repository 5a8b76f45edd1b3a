package rampwright.analysis.figure;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.signal.CycleTracker;
import rampwright.analysis.signal.Cycles;
import rampwright.analysis.signal.KindFinder;
import rampwright.analysis.signal.RmsTrack;
import rampwright.analysis.signal.RmsTracker;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.TimeBase;
import rampwright.analysis.trace.Trace;
import rampwright.analysis.trace.TraceKind;

/** From a trace to everything that can be said of it. */
public final class TraceAnalyzer {
  private TraceAnalyzer() {}

  /**
   * Finds starts and stops in a trace and takes their figures.
   *
   * @param trace at least one current and two samples
   * @param motor what is known about the motor; missing parts make figures missing, with the reason
   * @param options a person's corrections and thresholds
   * @throws IllegalArgumentException when the trace has no current or fewer than two samples
   */
  public static AnalyzedTrace analyze(Trace trace, MotorContext motor, AnalysisOptions options) {
    return analyze(trace, motor, options, SpeedModel.NONE);
  }

  /**
   * The same with a model that dates full speed where the trace has no speed channel.
   *
   * @throws IllegalArgumentException when the trace has no current or fewer than two samples
   */
  public static AnalyzedTrace analyze(
      Trace trace, MotorContext motor, AnalysisOptions options, SpeedModel model) {
    if (trace.present(ChannelName.CURRENTS).isEmpty()) {
      throw new IllegalArgumentException(
          trace.provenance().source() + ": no current channel; an analysis needs at least one");
    }
    if (trace.size() < 2) {
      throw new IllegalArgumentException(
          trace.provenance().source()
              + ": "
              + trace.size()
              + " samples; an analysis needs at least two");
    }
    KindFinder.Kind kind = KindFinder.find(trace, motor.ratedFrequencyHz());
    SoundTrace sound = SoundTrace.of(trace, kind.kind(), motor);
    Cycles cycles = null;
    if (kind.kind() == TraceKind.WAVEFORM) {
      cycles = CycleTracker.track(sound.trace(), motor.ratedFrequencyHz());
      if (cycles == null) {
        return withoutCycles(sound, kind, motor);
      }
    }
    return figures(sound, kind, cycles, motor, options, model);
  }

  private static AnalyzedTrace figures(
      SoundTrace sound,
      KindFinder.Kind kind,
      @Nullable Cycles cycles,
      MotorContext motor,
      AnalysisOptions options,
      SpeedModel model) {
    Trace trace = sound.trace();
    RmsTrack track =
        cycles != null ? RmsTracker.ofWaveform(trace, cycles) : RmsTracker.ofReadings(trace);
    Readings r = new Readings(trace, kind.kind(), motor, cycles, track);
    List<Segment> segments = Segment.all(r);
    Findings findings = new Findings(r, options.thresholds());
    findings.add(sound.findings());
    List<VoltageFigures.Window> dips = findings.ofRecord(segments);
    List<StartRecord> starts = new ArrayList<>();
    List<Map<Integer, TraceFigures.HarmonicShare>> harmonics = new ArrayList<>();
    for (int s = 0; s < segments.size(); s++) {
      Segment segment = segments.get(s);
      double untilS = s + 1 < segments.size() ? segments.get(s + 1).flow().fromS() : r.endS();
      RunLevel level = RunLevel.of(r, segment);
      Map<String, Measured> instants = StartInstants.of(r, segment, level, options, model);
      StartFigures.Window window = StartFigures.window(segment, instants);
      CycleSeries cyclesOfStart =
          segment.flow().openStart() ? null : CycleSeries.over(r, window.fromS(), window.toS());
      WaveformFigures waveform = WaveformFigures.of(r, level, cyclesOfStart);
      Map<String, Measured> figures = StartFigures.of(r, segment, level, instants, dips, waveform);
      boolean turned = !(segment.run() == null && Outcomes.neverTurned(r, segment.flow()));
      StopRecord stop = StopFigures.of(r, segment, level, options, turned, untilS);
      StartRecord start = new StartRecord(Outcomes.of(r, segment), instants, figures, stop);
      starts.add(start);
      harmonics.add(waveform.harmonics());
      findings.ofStart(segment, start, options, cyclesOfStart);
    }
    findings.repeats(segments);
    return new AnalyzedTrace(
        new TraceFigures(
            kind.kind(),
            kind.reason(),
            1 / trace.time().typicalStepS(),
            frequency(cycles, motor),
            r.endS() - r.startS(),
            harmonics,
            starts,
            findings.inOrder()),
        track);
  }

  /** An alternating current in which no cycle can be told: nothing is taken from it. */
  private static AnalyzedTrace withoutCycles(
      SoundTrace sound, KindFinder.Kind kind, MotorContext motor) {
    TimeBase time = sound.trace().time();
    double fromS = time.atS(0);
    double toS = time.atS(time.size() - 1);
    double hz =
        motor.ratedFrequencyHz() != null ? motor.ratedFrequencyHz() : CycleTracker.LOWEST_HZ;
    boolean tooShort = (toS - fromS) * hz < CycleTracker.LEAST_CYCLES;
    String why =
        tooShort
            ? Findings.text(
                "the record is too short: %.3g s of an alternating current; an RMS needs %.1f cycles",
                toS - fromS, CycleTracker.LEAST_CYCLES)
            : "the current alternates, but no fundamental between 30 and 80 Hz is seen over two"
                + " cycles: no RMS can be taken";
    List<Finding> findings = new ArrayList<>(sound.findings());
    findings.add(new Finding(tooShort ? "too-short" : "no-fundamental", fromS, toS, null, why));
    return new AnalyzedTrace(
        new TraceFigures(
            kind.kind(),
            kind.reason() + "; " + why,
            1 / time.typicalStepS(),
            motor.ratedFrequencyHz(),
            toS - fromS,
            List.of(),
            List.of(),
            findings),
        new RmsTrack(new double[0], Map.of()));
  }

  private static @Nullable Double frequency(@Nullable Cycles cycles, MotorContext motor) {
    return cycles != null ? Double.valueOf(cycles.frequencyHz()) : motor.ratedFrequencyHz();
  }
}
