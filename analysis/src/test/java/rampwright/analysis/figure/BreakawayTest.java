package rampwright.analysis.figure;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.trace.ChannelName;

/** When the shaft begins to turn. */
class BreakawayTest {
  private static final double BREAKAWAY_S = 3.0;

  private static StartRecord start(DoubleUnaryOperator rpm) {
    return MadeTrace.analyze(
            new MadeTrace(14, 20)
                .withThreeReadings(t -> t < 2 || t > 12 ? 0 : t < 8 ? 350 : 80)
                .with(ChannelName.SPEED, rpm)
                .build())
        .figures()
        .starts()
        .get(0);
  }

  private static double speed(double t) {
    return t < BREAKAWAY_S ? 0 : Math.min(1480, 370 * (t - BREAKAWAY_S));
  }

  @Test
  void noiseAtStandstillIsNoBreakaway() {
    // A pickup that is noisier at standstill, beside a thyristor stack, than when pulses come.
    for (long seed = 1; seed <= 40; seed++) {
      Random random = new Random(seed);
      Measured breakaway =
          start(
                  t -> {
                    double noise = t < BREAKAWAY_S ? 15 : 1;
                    return speed(t) + noise * random.nextGaussian();
                  })
              .instants()
              .get("breakaway_s");
      assertThat(breakaway.value()).as("seed " + seed).isNotNull();
      assertThat(Math.abs(breakaway.value() - BREAKAWAY_S))
          .as("seed " + seed)
          .isLessThan(2 * breakaway.uncertainty());
    }
  }

  @Test
  void aFanThatWindmillsHasNoBreakaway() {
    StartRecord start = start(t -> t < BREAKAWAY_S ? 90 : Math.min(1480, 90 + 370 * (t - 3)));
    Measured breakaway = start.instants().get("breakaway_s");
    assertThat(breakaway.value()).isNull();
    assertThat(breakaway.why()).contains("turned already").contains("90");
    assertThat(start.figures().get("breakaway_delay_s").why()).contains("turned already");
    assertThat(start.figures().get("start_time_s").value()).isNotNull();
  }

  @Test
  void oneTurningBackwardsHasNone() {
    Measured breakaway =
        start(t -> t < BREAKAWAY_S ? -60 : Math.min(1480, -60 + 370 * (t - 3)))
            .instants()
            .get("breakaway_s");
    assertThat(breakaway.why()).contains("turned already");
  }
}
