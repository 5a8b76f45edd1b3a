package rampwright.analysis.machine;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;

/** Surge, water column and supply dip against worked examples and closed forms. */
class HydraulicsReferenceTest {
  private static final Percentage PRINTED = Percentage.withPercentage(0.05);

  /** Subramanya, 1000 Solved Problems in Fluid Mechanics, 14.18: a 1080.5 m/s, L 800 m, 3.0 m/s. */
  @Test
  void surgeOfSubramanya1418() {
    Pipe pipe = new Pipe(800, 1080.5, 3.0);
    assertThat(pipe.periodS()).isCloseTo(1.481, within(5e-4));
    assertThat(pipe.joukowskyPa(998)).isCloseTo(3.2351e6, PRINTED);
    assertThat(pipe.risePa(2.0) * 0.998).isCloseTo(2.394e6, Percentage.withPercentage(0.1));
  }

  /** The same work, 14.20: rigid pipe, a 1484.73 m/s, L 3500 m, 0.8 m/s, rho 998. */
  @Test
  void surgeOfSubramanya1420() {
    Pipe pipe = new Pipe(3500, 1484.73, 0.8);
    assertThat(pipe.periodS()).isCloseTo(4.7147, within(5e-5));
    assertThat(pipe.joukowskyPa(998)).isCloseTo(1.1854e6, PRINTED);
    assertThat(pipe.risePa(4.0)).isEqualTo(pipe.joukowskyPa());
  }

  /** a 1200 m/s and 1 m/s: 122.4 m, 12.0 bar (derived). */
  @Test
  void joukowskyHeadAndBar() {
    Pipe pipe = new Pipe(100, 1200, 1);
    assertThat(pipe.joukowskyHeadM()).isCloseTo(122.4, within(0.05));
    assertThat(pipe.joukowskyBar()).isCloseTo(12.0, within(0.05));
  }

  /** Pump flow stops at n = sqrt(static head / shut-off head). */
  @Test
  void checkValveHoldsBelowTheSpeedOfStaticHead() {
    WaterColumn water = new WaterColumn(0.5, 2, 0.5);
    double opens = Math.sqrt(0.5 / WaterColumn.SHUT_OFF);
    assertThat(water.steadyFlow(opens - 1e-6)).isZero();
    assertThat(water.steadyFlow(opens + 1e-6)).isPositive();
    assertThat(water.steadyFlow(1)).isCloseTo(1, within(1e-12));
  }

  /** Affinity: without static head and inertia flow follows speed and torque its square. */
  @Test
  void affinityLawsHoldWithoutStaticHead() {
    WaterColumn water = new WaterColumn(0, 0, 0.5);
    for (double n : new double[] {0.2, 0.6, 1.0}) {
      double flow = water.flowAfter(0.3, n, 0.01);
      assertThat(flow).isCloseTo(n, within(1e-6));
      assertThat(water.torqueShare(n, flow)).isCloseTo(n * n, within(1e-6));
    }
  }

  /** Flow settles where pump and pipe agree, from any side, at any step. */
  @Test
  void flowSettlesAtTheSteadyFlow() {
    WaterColumn water = new WaterColumn(0.4, 3, 0.5);
    for (double step : new double[] {0.01, 0.25, 5}) {
      double flow = 0;
      for (int k = 0; k < 200 / step; k++) {
        flow = water.flowAfter(flow, 0.9, step);
      }
      assertThat(flow).isCloseTo(water.steadyFlow(0.9), within(1e-9));
    }
  }

  /**
   * 1000 kVA, 5.75 % on a stiff source; starting 1120 and 1258 kVA, all reactive: dip S / (S + Ssc)
   * (derived, both inductive).
   */
  @Test
  void dipOfAnInductiveLoadBehindATransformer() {
    Supply supply = Supply.ofTransformer(480, 1e6, 0.0575, 1e9);
    assertThat(supply.faultLevelVa(480)).isCloseTo(17391.3e3, Percentage.withPercentage(1e-3));
    double[][] cases = {{1120e3, 6.050}, {1258e3, 6.746}};
    for (double[] c : cases) {
      double ohm = 480 * 480 / c[0];
      assertThat(100 * (1 - supply.retainedShare(ohm, 0))).isCloseTo(c[1], within(1e-3));
    }
    Supply both = supply.plus(Supply.ofFaultLevel(480, 150e6, 1e9));
    assertThat(both.faultLevelVa(480)).isCloseTo(15584.4e3, Percentage.withPercentage(1e-3));
    assertThat(100 * (1 - both.retainedShare(480 * 480 / 1258e3, 0)))
        .isCloseTo(7.469, within(1e-3));
  }

  /**
   * Fox and McDonald, Introduction to Fluid Mechanics, Ex 10.7: 1170 to 1750 rpm takes 300 gpm to
   * 448.718 gpm and 21.9 ft to 48.995 ft (affinity).
   */
  @Test
  void affinityOfFoxAndMcDonald107() {
    WaterColumn water = new WaterColumn(0, 0, 0.5);
    double slow = 1170.0 / 1750;
    assertThat(300 * water.steadyFlow(1) / water.steadyFlow(slow)).isCloseTo(448.718, within(5e-4));
    double torque = water.torqueShare(1, 1) / water.torqueShare(slow, water.steadyFlow(slow));
    assertThat(21.9 * torque).isCloseTo(48.995, within(5e-4));
  }

  /** Static over shut-off head of 0.6 opens the check valve at 77.5 % speed (derived). */
  @Test
  void checkValveOpensAtTheRootOfTheHeadsRatio() {
    WaterColumn water = new WaterColumn(0.6 * WaterColumn.SHUT_OFF, 0, 0.5);
    assertThat(water.steadyFlow(0.774)).isZero();
    assertThat(water.steadyFlow(0.775)).isPositive();
  }
}
