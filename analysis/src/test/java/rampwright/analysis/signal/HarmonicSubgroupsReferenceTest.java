package rampwright.analysis.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import rampwright.analysis.trace.Samples;

/** Groups and subgroups by the definitions of IEC 61000-4-7, clause 5 (from memory). */
class HarmonicSubgroupsReferenceTest {
  /** 2000 products of numbers below 330, over 2000. */
  private static final double ROUNDING_V = 1e-10;

  @Test
  void linesBesideTheFifth() {
    // 230 V at 50 Hz + 5 V at 250 + 2 V at 255 + 1 V at 265 Hz, ten cycles: bin 50 holds 5 V,
    // subgroup sqrt(25 + 4), group sqrt(25 + 4 + 1).
    HarmonicSubgroups groups = ofTones(10, 10_000, 50, 40);
    assertThat(groups.line(1)).isCloseTo(230, within(ROUNDING_V));
    assertThat(groups.line(5)).isCloseTo(5, within(ROUNDING_V));
    assertThat(groups.subgroup(5)).isCloseTo(Math.sqrt(29), within(ROUNDING_V));
    assertThat(groups.group(5)).isCloseTo(Math.sqrt(30), within(ROUNDING_V));
    assertThat(groups.interharmonicSubgroup(5)).isCloseTo(1, within(ROUNDING_V));
    assertThat(groups.lineDistortion()).isCloseTo(5 / 230.0, within(ROUNDING_V));
    assertThat(groups.subgroupDistortion()).isCloseTo(Math.sqrt(29) / 230, within(ROUNDING_V));
    assertThat(groups.groupDistortion()).isCloseTo(Math.sqrt(30) / 230, within(ROUNDING_V));
  }

  @Test
  void binHalfwayBetweenOrdersIsSharedByBothGroups() {
    // 1 V at 275 Hz is bin 55 = 5 N + N/2: half its square belongs to order 5, half to order 6.
    Samples samples = tones(10_000, new double[][] {{50, 100}, {275, 1}});
    HarmonicSubgroups groups = HarmonicSubgroups.over(samples, new SampleWindow(200, 2200), 10, 20);
    assertThat(groups.group(5)).isCloseTo(Math.sqrt(0.5), within(ROUNDING_V));
    assertThat(groups.group(6)).isCloseTo(Math.sqrt(0.5), within(ROUNDING_V));
    assertThat(groups.subgroup(5)).isCloseTo(0, within(1e-6));
  }

  @Test
  void twelveCyclesOfSixtyHertzAtAnAwkwardRate() {
    // 12 cycles at 5050 Hz are 1010 samples; a cycle is 84.17. Off-sample ends: 1e-6 of 230 V.
    Samples samples = tones(5050, new double[][] {{60, 230}, {300, 5}, {305, 2}, {315, 1}});
    SampleWindow window = new SampleWindow(100.4, 1110.4);
    HarmonicSubgroups groups =
        HarmonicSubgroups.over(samples, window, 12, HarmonicSubgroups.highestOrder(window, 12));
    assertThat(groups.highestOrder()).isEqualTo(40);
    assertThat(groups.subgroup(5)).isCloseTo(Math.sqrt(29), within(1e-4));
    assertThat(groups.group(5)).isCloseTo(Math.sqrt(30), within(1e-4));
  }

  @Test
  void rangeIsCappedBySamplingRate() {
    SampleWindow window = new SampleWindow(0, 200);
    assertThat(HarmonicSubgroups.highestOrder(window, 10)).isEqualTo(9);
    Samples samples = tones(1000, new double[][] {{50, 1}});
    assertThatThrownBy(() -> HarmonicSubgroups.over(samples, window, 10, 10))
        .hasMessageContaining("outside 1 to 9");
    assertThatThrownBy(() -> HarmonicSubgroups.over(samples, window, 5, 3))
        .hasMessageContaining("10 or 12 cycles");
  }

  private static HarmonicSubgroups ofTones(int cycles, double rateHz, double hz, int orders) {
    Samples samples = tones(rateHz, new double[][] {{hz, 230}, {250, 5}, {255, 2}, {265, 1}});
    double length = cycles * rateHz / hz;
    return HarmonicSubgroups.over(samples, new SampleWindow(200, 200 + length), cycles, orders);
  }

  private static Samples tones(double rateHz, double[][] tones) {
    double[] x = new double[(int) (rateHz * 0.3)];
    for (double[] tone : tones) {
      for (int k = 0; k < x.length; k++) {
        x[k] += Math.sqrt(2) * tone[1] * Math.sin(2 * Math.PI * tone[0] * k / rateHz + tone[0]);
      }
    }
    return Samples.owning(x);
  }
}
