package rampwright.analysis.machine;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** Heads of a pump and the flow they bring about, against closed forms. */
class PipeHeadReferenceTest {
  /** 640 m at 1.6 m/s under 38 m: 640 x 1.6 / (9.80665 x 38) = 2.748 s (by hand). */
  @Test
  void theColumnsInertiaTimeIsItsMomentumOverTheHead() {
    PipeHead head = new PipeHead(30, 38);
    assertThat(head.inertiaS(640, 1.6)).isCloseTo(2.748, within(5e-4));
    assertThat(head.staticShare()).isCloseTo(0.7895, within(5e-5));
  }

  /**
   * Establishment of flow under a steady head with friction as its square: v = v0 tanh(t / T), so
   * that t = T / 2 ln((1 + v / v0) / (1 - v / v0)) (closed form of the momentum equation; Streeter,
   * Wylie and Bedford, Fluid Mechanics, from memory). At synchronous speed the pump's falling curve
   * and the pipe's friction together are such a square, T = inertia time / (shut-off - static
   * share). Steps of a thousandth of T with a rule of the first order: within 0.1 %.
   */
  @Test
  void flowIsEstablishedAsTheTangentHyperbolic() {
    PipeHead head = new PipeHead(20, 50);
    WaterColumn water = new WaterColumn(head.staticShare(), head.inertiaS(3000, 2), 0.5);
    double scaleS = water.inertiaS() / (WaterColumn.SHUT_OFF - water.staticShare());
    double stepS = scaleS / 1000;
    double flow = 0;
    for (int k = 1; k <= 3000; k++) {
      flow = water.flowAfter(flow, 1, stepS);
      if (k % 500 == 0) {
        assertThat(flow).isCloseTo(Math.tanh(k * stepS / scaleS), within(1e-3));
      }
    }
  }

  @Test
  void noPumpLiftsMoreThanItsHead() {
    assertThatThrownBy(() -> new PipeHead(60, 50))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("no less than the static head");
    assertThatThrownBy(() -> new PipeHead(0, 0)).isInstanceOf(IllegalArgumentException.class);
  }
}
