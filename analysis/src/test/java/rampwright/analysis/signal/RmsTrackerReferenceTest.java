package rampwright.analysis.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.EnumMap;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Provenance;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;
import rampwright.analysis.trace.Trace;

/**
 * One-cycle RMS and its timing against closed forms and the dip table for RMS(1/2) of IEC
 * 61000-4-30 (reference tables, section 1.1: durations of 110 and 90 ms by depth alone).
 */
class RmsTrackerReferenceTest {
  private static Trace voltage(double rateHz, double lengthS, DoubleUnaryOperator v) {
    int n = (int) Math.round(lengthS * rateHz) + 1;
    double[] values = new double[n];
    for (int i = 0; i < n; i++) {
      values[i] = v.applyAsDouble(i / rateHz);
    }
    Map<ChannelName, Samples> channels = new EnumMap<>(ChannelName.class);
    channels.put(ChannelName.V12, Samples.owning(values));
    return new Trace(TimeBase.even(0, 1 / rateHz, n), channels, null, Provenance.computed("made"));
  }

  @ParameterizedTest
  @CsvSource({
    // Whole numbers of samples a cycle: the rule is exact.
    "50, 5000, 1e-9",
    "60, 6000, 1e-9",
    // Off-nominal and not whole: trapezoids with cut ends, (2 pi / N)^3 / 12 and less.
    "49.7, 5000, 2e-5",
    "60, 5050, 2e-5",
    "51.3, 1000, 3e-3",
    "47, 10000, 3e-6",
  })
  void steadySineHasItsRmsAtAnyFrequency(double hz, double rateHz, double share) {
    Trace trace =
        voltage(rateHz, 2, t -> Math.sqrt(2) * 230 * Math.sin(2 * Math.PI * hz * t + 0.7));
    Cycles cycles = CycleTracker.track(trace, null);
    assertThat(cycles).isNotNull();
    assertThat(cycles.frequencyHz()).isCloseTo(hz, within(hz * 2e-4));
    double[] rms = RmsTracker.ofWaveform(trace, cycles).of(ChannelName.V12);
    for (double value : rms) {
      assertThat(value).isCloseTo(230, within(230 * share));
    }
  }

  @Test
  void sineWithDirectPartAddsSquares() {
    Trace trace = voltage(5000, 1, t -> 100 * Math.sin(2 * Math.PI * 50 * t) + 30);
    double[] rms =
        RmsTracker.ofWaveform(trace, CycleTracker.track(trace, 50.0)).of(ChannelName.V12);
    assertThat(rms[10]).isCloseTo(Math.sqrt(100 * 100 / 2.0 + 900), within(1e-6));
  }

  @Test
  void cycleBoundariesAreTheSinesZeroCrossings() {
    Trace trace = voltage(5000, 1, t -> Math.sin(2 * Math.PI * 50 * t - 1.0));
    double[] edge = CycleTracker.track(trace, 50.0).boundaryS();
    for (double s : edge) {
      assertThat(Math.sin(2 * Math.PI * 50 * s - 1.0)).isCloseTo(0, within(1e-6));
    }
  }

  @Test
  void frequencyThatDriftsIsFollowed() {
    // 50 Hz falling by 0.4 Hz a second for 3 s.
    Trace trace = voltage(5000, 3, t -> 325 * Math.sin(2 * Math.PI * (50 * t - 0.2 * t * t)));
    Cycles cycles = CycleTracker.track(trace, 50.0);
    double[] edge = cycles.boundaryS();
    // The last boundaries are still zero crossings: within 1 % of a half cycle.
    for (int k = edge.length - 20; k < edge.length - 6; k++) {
      double s = edge[k];
      assertThat(Math.sin(2 * Math.PI * (50 * s - 0.2 * s * s))).isCloseTo(0, within(0.03));
    }
  }

  @ParameterizedTest
  @CsvSource({"0.70, 110", "0.85, 90", "0.88, 90", "0.50, 110"})
  void dipOfFiveCyclesMeasuresByItsDepth(double level, double durationMs) {
    Trace trace =
        voltage(
            5000,
            1,
            t ->
                (t >= 0.3 && t < 0.4 ? level : 1)
                    * Math.sqrt(2)
                    * 400
                    * Math.sin(2 * Math.PI * 50 * t));
    RmsTrack track = RmsTracker.ofWaveform(trace, CycleTracker.track(trace, 50.0));
    DipTiming.Dip dip = DipTiming.usual(400).find(track, java.util.List.of(ChannelName.V12)).get(0);
    // The step itself shifts the tracked phase by nothing, since the sine goes on in phase.
    assertThat(1000 * dip.durationS()).isCloseTo(durationMs, within(0.05));
    assertThat(dip.retainedV()).isCloseTo(level * 400, within(1e-3));
  }

  @Test
  void silenceHasNoCycles() {
    assertThat(CycleTracker.track(voltage(5000, 1, t -> 0), null)).isNull();
    assertThat(CycleTracker.track(voltage(5000, 0.01, t -> Math.sin(314 * t)), 50.0)).isNull();
  }
}
