package rampwright.analysis.figure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.signal.Cycles;
import rampwright.analysis.signal.Noise;
import rampwright.analysis.signal.RmsTrack;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.Trace;
import rampwright.analysis.trace.TraceKind;

/**
 * A trace made ready for its figures: the RMS track with short gaps of one phase closed, the
 * highest phase, the noise at rest and the current above which a current counts as flowing.
 */
final class Readings {
  // From this share of a channel's largest reading on, a fall to or rise from the other is a step.
  private static final double STEP_LEAST = 0.02;
  private static final double STEP_SHARE = 0.25;

  final Trace trace;
  final TraceKind kind;
  final MotorContext motor;
  final @Nullable Cycles cycles;
  final RmsTrack track;

  /** Stamps of the track, s. */
  final double[] t;

  /** Typical interval of the track, s. */
  final double stepS;

  /** Interval between samples of the trace, s. */
  final double sampleS;

  /** How far the stamps of readings lie off an even beat, standard deviation, s. */
  final double jitterS;

  final List<ChannelName> phases;

  /** Per phase: RMS current, short gaps closed; same order as {@code phases}. */
  final double[][] current;

  /** Longer gaps of the phases. */
  final PhaseGaps gaps;

  /** Per phase: as {@code current}, with the longer gaps filled from the phases that were read. */
  final double[][] currentFilled;

  /** Extremes are taken on these: the running median of three of readings, a waveform's track. */
  final double[][] currentForExtremes;

  /** Highest phase at each stamp, of {@code currentForExtremes}; NaN where no phase was read. */
  final double[] high;

  final List<ChannelName> lines;
  final double[][] voltageForExtremes;
  final PhaseGaps voltageGaps;

  /** What the meter shows while no current flows. */
  final RestLevel rest;

  /** Highest phase at rest: on a waveform the noise's RMS, of readings with the meter's offset. */
  final double noiseA;

  /** A current counts as flowing above this. */
  final double thresholdA;

  /** What the meter of readings averages over. */
  final Averaging averaging;

  final @Nullable SpeedTrack speed;

  Readings(
      Trace trace, TraceKind kind, MotorContext motor, @Nullable Cycles cycles, RmsTrack track) {
    this.trace = trace;
    this.kind = kind;
    this.motor = motor;
    this.cycles = cycles;
    this.track = track;
    this.t = track.timeS();
    this.sampleS = trace.time().typicalStepS();
    this.stepS = cycles != null ? cycles.cycleS() / 2 : sampleS;
    this.jitterS = isWaveform() ? 0 : jitter(t);
    this.phases = trace.present(ChannelName.CURRENTS);
    this.current = new double[phases.size()][];
    this.currentForExtremes = new double[phases.size()][];
    for (int p = 0; p < phases.size(); p++) {
      current[p] = bridged(valuesOf(phases.get(p)));
      currentForExtremes[p] = isWaveform() ? current[p] : Noise.medianOfThree(current[p]);
    }
    this.gaps = new PhaseGaps(phases, t, current, stepS);
    this.currentFilled = new double[phases.size()][];
    for (int p = 0; p < phases.size(); p++) {
      currentFilled[p] = gaps.filled(p);
    }
    List<ChannelName> present = new ArrayList<>();
    for (ChannelName line : ChannelName.LINE_VOLTAGES) {
      if (track.of(line) != null) {
        present.add(line);
      }
    }
    this.lines = List.copyOf(present);
    this.voltageForExtremes = new double[lines.size()][];
    for (int l = 0; l < lines.size(); l++) {
      double[] values = valuesOf(lines.get(l));
      voltageForExtremes[l] = isWaveform() ? values : Noise.medianOfThree(values);
    }
    this.voltageGaps = new PhaseGaps(lines, t, voltageForExtremes, stepS);
    this.high = highest(currentForExtremes, t.length);
    this.rest = RestLevel.of(phases, currentForExtremes, current, high, motor.ratedCurrentA());
    this.noiseA = rest.levelA();
    this.thresholdA = rest.thresholdA();
    this.averaging = Flow.averaging(this);
    this.speed = SpeedTrack.of(trace, isWaveform() ? stepS : 0);
  }

  boolean isWaveform() {
    return kind == TraceKind.WAVEFORM;
  }

  /** Samples of each phase current, in the order of {@code phases}. */
  List<Samples> currentSamples() {
    List<Samples> samples = new ArrayList<>();
    for (ChannelName phase : phases) {
      Samples one = trace.channel(phase);
      if (one != null) {
        samples.add(one);
      }
    }
    return samples;
  }

  /** Track values of a channel that is known to be in the track. */
  double[] valuesOf(ChannelName name) {
    double[] values = track.of(name);
    if (values == null) {
      throw new IllegalArgumentException("the track has no " + name.key());
    }
    return values;
  }

  /** Index of the first stamp at or after {@code atS}. */
  int firstAtOrAfter(double atS) {
    int i = Arrays.binarySearch(t, atS);
    return i >= 0 ? i : -i - 1;
  }

  double startS() {
    return trace.time().atS(0);
  }

  double endS() {
    return trace.time().atS(trace.size() - 1);
  }

  /** Readings (or half cycles) a change of state must last. */
  int lasting() {
    return isWaveform() ? 6 : 2;
  }

  /** Spread of the intervals about their median; an interval has the jitter of both its ends. */
  private static double jitter(double[] t) {
    double[] step = new double[Math.max(0, t.length - 1)];
    for (int k = 0; k < step.length; k++) {
      step[k] = t[k + 1] - t[k];
    }
    return step.length == 0 ? 0 : Noise.spread(step, 0, step.length) / Math.sqrt(2);
  }

  private static double[] bridged(double[] values) {
    double[] out = values.clone();
    double largest = Noise.largest(values, 0, values.length);
    int i = 0;
    while (i < out.length) {
      if (!Double.isNaN(out[i])) {
        i++;
        continue;
      }
      int end = i;
      while (end < out.length && Double.isNaN(out[end])) {
        end++;
      }
      if (i > 0
          && end < out.length
          && end - i <= Gap.BRIDGED
          && !isStep(out[i - 1], out[end], largest)) {
        for (int k = i; k < end; k++) {
          double share = (k - i + 1.0) / (end - i + 1.0);
          out[k] = out[i - 1] + share * (out[end] - out[i - 1]);
        }
      }
      i = end;
    }
    return out;
  }

  /** Whether current begins or ceases between two readings: what lies there is on neither line. */
  private static boolean isStep(double a, double b, double largest) {
    return Math.max(a, b) > STEP_LEAST * largest && Math.min(a, b) < STEP_SHARE * Math.max(a, b);
  }

  private static double[] highest(double[][] phases, int n) {
    double[] out = new double[n];
    for (int k = 0; k < n; k++) {
      double best = Double.NaN;
      for (double[] phase : phases) {
        if (!Double.isNaN(phase[k]) && !(best >= phase[k])) {
          best = phase[k];
        }
      }
      out[k] = best;
    }
    return out;
  }
}
