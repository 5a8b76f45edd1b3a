package rampwright.analysis.machine;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Against the division of voltage over complex impedances (Hipparchus). */
class SupplyPathTest {
  private static Complex of(Supply supply) {
    return new Complex(supply.resistanceOhm(), supply.reactanceOhm());
  }

  /**
   * Dips of a motor of this impedance: at the starter and at the busbar, shares of the open
   * voltage.
   */
  private static double[] dips(SupplyPath path, double motorOhm, double powerFactor) {
    Complex motor =
        new Complex(motorOhm * powerFactor, motorOhm * Math.sqrt(1 - powerFactor * powerFactor));
    Complex atBusbar = motor.add(of(path.cable()));
    Complex whole = atBusbar.add(of(path.source()));
    return new double[] {1 - motor.divide(whole).norm(), 1 - atBusbar.divide(whole).norm()};
  }

  /** Tolerance: the turn of the voltage, left out, as the documentation states. */
  @ParameterizedTest
  @CsvSource({
    // a weak transformer with a short, a like and a long thin cable; a stiff one with a long one
    "0.002, 0.020, 0.004, 0.002",
    "0.002, 0.020, 0.020, 0.004",
    "0.002, 0.020, 0.045, 0.006",
    "0.001, 0.004, 0.060, 0.008",
    "0.004, 0.016, 0.004, 0.016",
  })
  void shareIsThatOfDividedVoltage(double rs, double xs, double rc, double xc) {
    SupplyPath path = new SupplyPath(new Supply(rs, xs), new Supply(rc, xc));
    for (double powerFactor : new double[] {0.2, 0.35, 0.5}) {
      double[] dips = dips(path, 0.35, powerFactor);
      assertThat(dips[0]).isBetween(0.03, 0.15);
      assertThat(path.busbarShare(powerFactor)).isCloseTo(dips[1] / dips[0], within(0.05));
    }
  }

  /** The equivalent drops as much, within a tenth of the dip: its angle is another. */
  @ParameterizedTest
  @CsvSource({"0.002, 0.020, 0.045, 0.006", "0.001, 0.004, 0.060, 0.008", "0.002,0.02,0,0"})
  void likeImpedanceDropsAsMuch(double rs, double xs, double rc, double xc) {
    SupplyPath path = new SupplyPath(new Supply(rs, xs), new Supply(rc, xc));
    Supply like = Supply.ofImpedance(path.likeImpedanceOhm(), Supply.USUAL_X_OVER_R);
    double power = SupplyPath.STARTING_POWER_FACTOR;
    double dip = 1 - like.retainedShare(0.35, power);
    assertThat(dip / dips(path, 0.35, power)[0]).isCloseTo(1, within(0.1));
  }

  @Test
  void withoutCableTheBusbarDipsAsTheStarter() {
    SupplyPath path = new SupplyPath(new Supply(0.002, 0.02), new Supply(0, 0));
    assertThat(path.busbarShare(0.3)).isEqualTo(1);
    SupplyPath stiff = new SupplyPath(new Supply(0, 0), new Supply(0, 0));
    assertThat(stiff.busbarShare(0.3)).isEqualTo(1);
  }
}
