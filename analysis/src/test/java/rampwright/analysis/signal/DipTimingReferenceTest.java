package rampwright.analysis.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;

/**
 * Dip timing by the definitions of IEC 61000-4-30, 5.4 (from memory), on closed-form dips.
 *
 * <p>A dip of exactly five cycles of 50 Hz, stepping at positive zero crossings, measures 110 or 90
 * ms by its depth alone.
 */
class DipTimingReferenceTest {
  private static final double DECLARED_V = 400;
  private static final double RATE_HZ = 10_000;

  /** Track times are sums of half cycles of 100 samples: exact but for rounding. */
  private static final double ROUNDING_S = 1e-9;

  /**
   * The weights of a window's end reach two samples beyond it, where the step has been: -0.0875 and
   * 0.0153 of 2 sin^2(2 pi/200) and 2 sin^2(4 pi/200), of 200 samples; in the root, 2e-7 of
   * declared at a level of 0.5.
   */
  private static final double BESIDE = 2.1e-7;

  @ParameterizedTest
  @CsvSource({
    "0.70, 0.863134, 0.31, 0.42, 0.110",
    "0.85, 0.928036, 0.32, 0.41, 0.090",
    "0.88, 0.941913, 0.32, 0.41, 0.090",
    "0.50, 0.790569, 0.31, 0.42, 0.110",
  })
  void fiveCycles(double level, double straddling, double startS, double endS, double durationS) {
    RmsTrack track = track(Map.of(ChannelName.V12, dip(level, 0.3, 0.4)));
    List<DipTiming.Dip> dips = DipTiming.usual(DECLARED_V).find(track, ChannelName.LINE_VOLTAGES);
    assertThat(dips).hasSize(1);
    DipTiming.Dip dip = dips.get(0);
    assertThat(dip.startS()).isCloseTo(startS, within(ROUNDING_S));
    assertThat(dip.endS()).isCloseTo(endS, within(ROUNDING_S));
    assertThat(dip.durationS()).isCloseTo(durationS, within(ROUNDING_S));
    assertThat(dip.ended()).isTrue();
    assertThat(dip.retainedV()).isCloseTo(level * DECLARED_V, within(BESIDE * DECLARED_V));
    // The cycle that straddles the step: sqrt((1 + level^2)/2), six digits given. The kink inside
    // it is on a sample and at zero voltage.
    double[] values = track.values().getOrDefault(ChannelName.V12, new double[0]);
    assertThat(values[29] / DECLARED_V).isCloseTo(straddling, within(1e-6));
  }

  @Test
  void polyphaseDipRunsFromTheFirstBelowToTheLastBack() {
    RmsTrack track =
        track(
            Map.of(
                ChannelName.V12, dip(0.7, 0.3, 0.4),
                ChannelName.V23, dip(0.5, 0.36, 0.5),
                ChannelName.V31, dip(1, 0, 0)));
    List<DipTiming.Dip> dips = DipTiming.usual(DECLARED_V).find(track, ChannelName.LINE_VOLTAGES);
    assertThat(dips).hasSize(1);
    assertThat(dips.get(0).startS()).isCloseTo(0.31, within(ROUNDING_S));
    assertThat(dips.get(0).endS()).isCloseTo(0.52, within(ROUNDING_S));
    assertThat(dips.get(0).channel()).isEqualTo(ChannelName.V23);
    assertThat(dips.get(0).retainedV()).isCloseTo(200, within(BESIDE * DECLARED_V));
  }

  @Test
  void hysteresisHoldsADipTogether() {
    double[] values = {400, 359, 361, 367, 359, 367.9, 368, 400};
    RmsTrack track = new RmsTrack(times(values.length), Map.of(ChannelName.V12, values));
    List<DipTiming.Dip> dips = DipTiming.usual(DECLARED_V).find(track, ChannelName.LINE_VOLTAGES);
    assertThat(dips).hasSize(1);
    assertThat(dips.get(0).startS()).isEqualTo(1);
    assertThat(dips.get(0).endS()).isEqualTo(6);
    assertThat(new DipTiming(DECLARED_V, 0.9, 0).find(track, ChannelName.LINE_VOLTAGES)).hasSize(2);
  }

  @Test
  void edgesOfTheTrackAndMissingValues() {
    double nan = Double.NaN;
    double[] values = {300, 400, 300, nan, 400, 400, nan, 200, nan};
    RmsTrack track = new RmsTrack(times(values.length), Map.of(ChannelName.V23, values));
    List<DipTiming.Dip> dips = DipTiming.usual(DECLARED_V).find(track, ChannelName.LINE_VOLTAGES);
    assertThat(dips)
        .containsExactly(
            new DipTiming.Dip(0, 1, true, 300, ChannelName.V23),
            new DipTiming.Dip(2, 4, true, 300, ChannelName.V23),
            new DipTiming.Dip(7, 8, false, 200, ChannelName.V23));
    assertThat(DipTiming.usual(DECLARED_V).find(track, List.of(ChannelName.V12))).isEmpty();
  }

  @Test
  void valueAtTheThresholdIsNoDip() {
    RmsTrack track =
        new RmsTrack(times(3), Map.of(ChannelName.V12, new double[] {400, 0.9 * DECLARED_V, 400}));
    assertThat(DipTiming.usual(DECLARED_V).find(track, ChannelName.LINE_VOLTAGES)).isEmpty();
  }

  @Test
  void settingsAreChecked() {
    assertThatThrownBy(() -> DipTiming.usual(0)).hasMessageContaining("declared above 0");
    assertThatThrownBy(() -> new DipTiming(400, 1.1, 0)).hasMessageContaining("threshold");
    assertThatThrownBy(() -> new DipTiming(400, 0.9, -0.1)).hasMessageContaining("hysteresis");
  }

  private static double[] times(int count) {
    double[] times = new double[count];
    for (int k = 0; k < count; k++) {
      times[k] = k;
    }
    return times;
  }

  private static Samples dip(double level, double fromS, double toS) {
    double[] x = new double[6001];
    for (int k = 0; k < x.length; k++) {
      double timeS = k / RATE_HZ;
      double share = timeS >= fromS && timeS < toS ? level : 1;
      x[k] = share * DECLARED_V * Math.sqrt(2) * Math.sin(2 * Math.PI * 50 * timeS);
    }
    return Samples.owning(x);
  }

  /** One-cycle RMS, refreshed every half cycle from 0 on, stamped at the cycle's end. */
  private static RmsTrack track(Map<ChannelName, Samples> channels) {
    int count = 59;
    double[] timeS = new double[count];
    Map<ChannelName, double[]> values = new EnumMap<>(ChannelName.class);
    channels.forEach(
        (name, samples) -> {
          double[] rms = new double[count];
          for (int k = 0; k < count; k++) {
            timeS[k] = 0.02 + 0.01 * k;
            rms[k] = OneCycleDft.of(samples, new SampleWindow(100 * k, 100 * k + 200), 0).rms();
          }
          values.put(name, rms);
        });
    return new RmsTrack(timeS, values);
  }
}
