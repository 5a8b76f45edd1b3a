package rampwright.app.trend;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/**
 * NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.4 (EWMA) and 6.3.2.3 (CUSUM), as quoted by
 * several public copies; 6.3.2.2 (individuals) likewise; run lengths: Montgomery, Introduction to
 * Statistical Quality Control, tables of average run lengths (from memory).
 */
class ControlChartReferenceTest {
  private static final double[] EWMA_VALUES = {
    52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2,
    52.6, 52.4, 53.6, 52.1
  };
  private static final double[] EWMA_PUBLISHED = {
    50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52,
    50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99
  };
  private static final double[] CUSUM_VALUES = {
    324.925, 324.675, 324.725, 324.350, 325.350, 325.225, 324.125, 324.525, 325.225, 324.600,
    324.625, 325.150, 328.325, 327.250, 327.825, 328.500, 326.675, 327.775, 326.875, 328.350
  };

  /** Half the last printed digit. */
  private static final double TWO_PLACES = 0.005;

  /** Printed to three figures; from memory, so a percent rather than half a digit. */
  private static final double RUN_LENGTH = 0.01;

  @Test
  void ewmaFollowsTheHandbook() {
    Ewma chart = new Ewma(0.3, 50, 2.0539, 3);
    double[] averages = chart.of(EWMA_VALUES);
    for (int i = 0; i < averages.length; i++) {
      assertThat(averages[i])
          .as("value %d", i + 1)
          .isCloseTo(EWMA_PUBLISHED[i], within(TWO_PLACES));
    }
    // published 52.5884; the last digit is cut, not rounded
    assertThat(50 + chart.halfWidth()).isCloseTo(52.5884, within(1e-4));
    assertThat(50 + chart.halfWidth(1)).isCloseTo(50 + 3 * 2.0539 * 0.3, within(1e-9));
  }

  /** The handbook's flow rates: mean 50.81, mean range 1.8778, limits 55.8041 and 45.8159. */
  @Test
  void individualsFollowTheHandbook() {
    double[] flow = {49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1};
    Individuals chart = Individuals.of(flow);
    assertThat(chart.mean()).isCloseTo(50.81, within(TWO_PLACES));
    assertThat(chart.meanRange()).isCloseTo(1.8778, within(5e-5));
    assertThat(chart.upper()).isCloseTo(55.8041, within(1e-4));
    assertThat(chart.lower()).isCloseTo(45.8159, within(1e-4));
    // factor 3.267; a copy prints 6.1349 for it
    assertThat(chart.rangeLimit()).isCloseTo(6.1347, within(1e-4));
    assertThat(chart.firstOut(flow)).isEqualTo(-1);
    assertThat(chart.firstOut(50, 55.9, 45)).isEqualTo(1);
    assertThat(chart.firstOut(50, 45.8)).isEqualTo(1);
  }

  @Test
  void cusumAlarmsFirstAtTheFourteenth() {
    Cusum chart = new Cusum(325, 0.3175, 4.1959);
    double[] upper = chart.upper(CUSUM_VALUES);
    double[] lower = chart.lower(CUSUM_VALUES);
    for (int i = 0; i < upper.length; i++) {
      assertThat(upper[i] > chart.decision()).as("value %d", i + 1).isEqualTo(i >= 13);
      assertThat(lower[i]).isLessThan(chart.decision());
    }
    assertThat(upper[13]).isCloseTo(4.94, within(1e-9));
    assertThat(lower[7]).isCloseTo(0.715, within(1e-9));
  }

  @Test
  void runLengthsOfCusum() {
    // k 0.5, h 4: 168 without a shift, 8.38 at one standard deviation; h 5: 465, 10.4
    assertThat(RunLength.ofTwoSidedCusum(0.5, 4, 0) / 168).isCloseTo(1, within(RUN_LENGTH));
    assertThat(RunLength.ofTwoSidedCusum(0.5, 4, 1) / 8.38).isCloseTo(1, within(RUN_LENGTH));
    assertThat(RunLength.ofTwoSidedCusum(0.5, 5, 0) / 465).isCloseTo(1, within(RUN_LENGTH));
    assertThat(RunLength.ofTwoSidedCusum(0.5, 5, 1) / 10.4).isCloseTo(1, within(RUN_LENGTH));
  }

  @Test
  void runLengthsOfEwma() {
    // lambda 0.1, reach 2.814: 500 without a shift, 10.3 at one standard deviation
    assertThat(RunLength.ofEwma(0.1, 2.814, 0) / 500).isCloseTo(1, within(RUN_LENGTH));
    assertThat(RunLength.ofEwma(0.1, 2.814, 1) / 10.3).isCloseTo(1, within(RUN_LENGTH));
  }
}
