package rampwright.analysis.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Unbalance and sequences against worked examples and against each other. */
class UnbalanceReferenceTest {
  /** Table printed to four decimals of a percent for the deviation, five for u2. */
  private static final double DEVIATION_PCT = 1e-4;

  private static final double U2_PCT = 1e-5;

  @ParameterizedTest
  @CsvSource({
    // Deviation: a motor-efficiency tip of the US Department of Energy (quoted as 1.1 %).
    "462, 463, 455, 1.0870, 1.09143",
    // Deviation: NEMA MG 1, 14.36 example (from memory; quoted as 1.96 %).
    "460, 467, 450, 1.9608, 2.14646",
    // Deviation: Hubert, Electric Machines, example 5.14 (second-hand; quoted as 2.58 %).
    "460, 455, 440, 2.5830, 2.64865",
    // Computed from the definitions; u2 of all rows likewise, by two methods.
    "225, 230, 235, 2.1739, 2.51106",
  })
  void table(double first, double second, double third, double deviationPct, double u2Pct) {
    assertThat(100 * Unbalance.maxDeviationShare(first, second, third))
        .isCloseTo(deviationPct, within(DEVIATION_PCT));
    assertThat(100 * Unbalance.negativeShare(first, second, third))
        .isCloseTo(u2Pct, within(U2_PCT));
  }

  @Test
  void phasorExample() {
    // Gonen, Electric Power Transmission System Engineering, example 9.1 (second-hand): V1, V2, V0
    // of 7.3/12.5, 0.4/-100, 4.4/154 degrees; angles of phase a recomputed. Half the last digit.
    SymmetricalComponents c =
        SymmetricalComponents.of(polar(7.3, 12.5), polar(0.4, -100), polar(4.4, 154));
    assertThat(c.positive().norm()).isCloseTo(3.96912, within(5e-6));
    assertThat(Math.toDegrees(c.positive().getArgument())).isCloseTo(20.537, within(5e-4));
    assertThat(c.negative().norm()).isCloseTo(2.52354, within(5e-6));
    assertThat(Math.toDegrees(c.negative().getArgument())).isCloseTo(-19.701, within(5e-4));
    assertThat(c.zero().norm()).isCloseTo(1.466, within(5e-4));
    assertThat(Math.toDegrees(c.zero().getArgument())).isCloseTo(45.11, within(5e-3));
  }

  @Test
  void magnitudesAndPhasorsAgreeOnClosedTriangles() {
    Random random = new Random(20260314);
    for (int run = 0; run < 200; run++) {
      Complex positive = polar(1, 360 * random.nextDouble());
      Complex negative = polar(Math.pow(10, -6 * random.nextDouble()), 360 * random.nextDouble());
      Complex a = polar(1, 120);
      Complex first = positive.add(negative);
      Complex second = positive.multiply(a.multiply(a)).add(negative.multiply(a));
      SymmetricalComponents c = SymmetricalComponents.ofTwoLines(first, second);
      Complex third = first.add(second).negate();
      double u2 = Unbalance.negativeShare(first.norm(), second.norm(), third.norm());
      // Magnitudes good to 1e-16 of 1; their differences are of the size of u2.
      assertThat(c.negativeShare()).isCloseTo(negative.norm(), within(1e-14));
      assertThat(u2).isCloseTo(negative.norm(), within(1e-13 + 1e-13 / negative.norm() * 0.01));
    }
  }

  @Test
  void deviationIsBetweenRatioAndItsBound() {
    // First order: deviation <= u2 <= 2/sqrt(3) deviation; second-order terms below 1 %.
    Random random = new Random(20260314);
    for (int run = 0; run < 200; run++) {
      double one = 400 * (1 + 0.02 * random.nextDouble());
      double two = 400 * (1 + 0.02 * random.nextDouble());
      double three = 400 * (1 + 0.02 * random.nextDouble());
      double ratio =
          Unbalance.negativeShare(one, two, three) / Unbalance.maxDeviationShare(one, two, three);
      assertThat(ratio).isBetween(0.99, 2 / Math.sqrt(3) * 1.01);
    }
  }

  @Test
  void onePhaseLost() {
    // Derived: currents I, -I, 0: I+ = I- = I/sqrt(3), ratio 1; largest deviation = the mean.
    SymmetricalComponents c = SymmetricalComponents.of(polar(10, 0), polar(10, 180), Complex.ZERO);
    assertThat(c.positive().norm()).isCloseTo(10 / Math.sqrt(3), within(1e-14));
    assertThat(c.negativeShare()).isCloseTo(1, within(1e-14));
    assertThat(c.zero().norm()).isCloseTo(0, within(1e-14));
    assertThat(Unbalance.negativeShare(10, 10, 0)).isCloseTo(1, within(1e-14));
    assertThat(Unbalance.maxDeviationShare(10, 10, 0)).isCloseTo(1, within(1e-14));
  }

  @Test
  void balancedSetHasOnlyPositiveAndSwappedPhasesOnlyNegative() {
    SymmetricalComponents c = SymmetricalComponents.of(polar(5, 10), polar(5, -110), polar(5, 130));
    assertThat(c.positive().subtract(polar(5, 10)).norm()).isLessThan(1e-14);
    assertThat(c.negative().norm()).isLessThan(1e-14);
    assertThat(c.zero().norm()).isLessThan(1e-14);
    SymmetricalComponents swapped =
        SymmetricalComponents.of(polar(5, 10), polar(5, 130), polar(5, -110));
    assertThat(swapped.negative().norm()).isCloseTo(5, within(1e-14));
    assertThat(swapped.positive().norm()).isLessThan(1e-14);
    assertThat(Unbalance.negativeShare(7, 7, 7)).isZero();
  }

  @Test
  void phaseVoltagesFromLineVoltages() {
    Complex a = polar(230, 15);
    Complex b = polar(215, -100);
    Complex c = polar(240, 140);
    SymmetricalComponents phase = SymmetricalComponents.of(a, b, c);
    SymmetricalComponents back =
        SymmetricalComponents.of(a.subtract(b), b.subtract(c), c.subtract(a)).phaseFromLine();
    assertThat(back.positive().subtract(phase.positive()).norm()).isLessThan(1e-12);
    assertThat(back.negative().subtract(phase.negative()).norm()).isLessThan(1e-12);
  }

  @Test
  void magnitudesThatCloseNoTriangleHaveNoRatio() {
    assertThat(Unbalance.negativeShare(10, 1, 1)).isNaN();
    assertThat(Unbalance.negativeShare(0, 0, 0)).isNaN();
    assertThat(Unbalance.negativeShare(1, Double.NaN, 1)).isNaN();
    assertThat(Unbalance.maxDeviationShare(0, 0, 0)).isNaN();
    assertThatThrownBy(() -> Unbalance.negativeShare(-1, 1, 1))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("negative");
  }

  private static Complex polar(double magnitude, double deg) {
    double rad = Math.toRadians(deg);
    return new Complex(magnitude * Math.cos(rad), magnitude * Math.sin(rad));
  }
}
