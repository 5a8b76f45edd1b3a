package rampwright.analysis.figure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Trace;

/** When current begins and ceases. */
class DatingTest {
  private static final double STEP_S = 0.04;
  private static final double BEGIN_S = 2.028;
  private static final double END_S = 11.969;

  /** RMS over the interval that ends at {@code t}, of a current that flows between two instants. */
  private static double averagedBack(double t) {
    double flowS = Math.max(0, Math.min(t, END_S) - Math.max(t - STEP_S, BEGIN_S));
    return (t < 6 ? 350 : 80) * Math.sqrt(flowS / STEP_S);
  }

  private static double atInstant(double t) {
    return t < BEGIN_S || t > END_S ? 0 : t < 6 ? 350 : 80;
  }

  /** An RMS takes a cycle at least, of 20 ms here; stamped at its end or its middle: 0 or 10 ms. */
  private static final double CYCLE_S = 0.02;

  @Test
  void inceptionOfReadingsIsTheMidpointBetweenTwo() {
    Trace trace = new MadeTrace(14, 1 / STEP_S).withThreeReadings(DatingTest::atInstant).build();
    Measured inception =
        MadeTrace.analyze(trace).figures().starts().get(0).instants().get("inception_s");
    // Readings at 2.00 s and 2.04 s.
    assertThat(inception.value()).isCloseTo(2.02, within(1e-9));
    assertThat(inception.uncertainty())
        .isCloseTo(Math.hypot(STEP_S / Math.sqrt(12), CYCLE_S / Math.sqrt(8)), within(1e-9));
  }

  @Test
  void inceptionOfAveragesLiesWithinWhatIsStated() {
    Trace trace = new MadeTrace(14, 1 / STEP_S).withThreeReadings(DatingTest::averagedBack).build();
    Measured inception =
        MadeTrace.analyze(trace).figures().starts().get(0).instants().get("inception_s");
    assertThat(Math.abs(inception.value() - BEGIN_S)).isLessThan(2 * inception.uncertainty());
    assertThat(inception.uncertainty()).isLessThan(STEP_S / 2);
  }

  @Test
  void theEndOfCurrentIsDatedForEitherMeter() {
    for (Trace trace :
        new Trace[] {
          new MadeTrace(14, 1 / STEP_S).withThreeReadings(DatingTest::atInstant).build(),
          new MadeTrace(14, 1 / STEP_S).withThreeReadings(DatingTest::averagedBack).build()
        }) {
      Measured release =
          MadeTrace.analyze(trace).figures().starts().get(0).stop().instants().get("release_s");
      // What the meter averages over is not known: up to three quarters of an interval.
      assertThat(release.uncertainty()).isBetween(STEP_S / Math.sqrt(6) - 1e-9, 0.75 * STEP_S);
      assertThat(Math.abs(release.value() - END_S)).isLessThan(2 * release.uncertainty());
    }
  }

  /** A zero that drifts by 1 % of the crest before current flows, at 20 and 80 samples a cycle. */
  @Test
  void aDriftingZeroDoesNotHideInception() {
    for (double rateHz : new double[] {1000, 4000}) {
      MadeTrace made = new MadeTrace(9, rateHz);
      for (int p = 0; p < 3; p++) {
        double lag = p * 2 * Math.PI / 3;
        made.with(
            ChannelName.CURRENTS.get(p),
            t -> {
              double rms = t < 1.003 || t > 8 ? 0 : t < 4 ? 40 + 300 * Math.min(1, t - 1) : 80;
              return 5 * t + Math.sqrt(2) * rms * Math.sin(2 * Math.PI * 50 * t - lag);
            });
      }
      Measured inception =
          MadeTrace.analyze(made.build()).figures().starts().get(0).instants().get("inception_s");
      assertThat(inception.value()).isCloseTo(1.003, within(2 * inception.uncertainty()));
      assertThat(inception.uncertainty()).isLessThan(rateHz < 2000 ? 0.003 : 0.001);
    }
  }

  @Test
  void oneBadSampleDoesNotHideInception() {
    // The largest sample of each current is what the floor is a share of; one of them is bad.
    MadeTrace made =
        new MadeTrace(9, 4000).withThreePhase(t -> t < 1 || t > 8 ? 0 : t < 4 ? 350 : 80, 50);
    Measured clean =
        MadeTrace.analyze(made.build()).figures().starts().get(0).instants().get("inception_s");
    for (int p = 0; p < 3; p++) {
      int phase = p;
      made.with(
          ChannelName.CURRENTS.get(p),
          t ->
              Math.abs(t - 0.5) < 1e-6
                  ? Double.NaN
                  : (t < 1 || t > 8 ? 0 : t < 4 ? 350 : 80)
                      * Math.sqrt(2)
                      * Math.sin(2 * Math.PI * 50 * t - phase * 2 * Math.PI / 3));
    }
    Measured inception =
        MadeTrace.analyze(made.build()).figures().starts().get(0).instants().get("inception_s");
    assertThat(inception.value()).isEqualTo(clean.value());
    assertThat(inception.value()).isCloseTo(1, within(0.0005));
  }
}
