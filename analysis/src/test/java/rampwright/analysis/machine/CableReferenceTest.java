package rampwright.analysis.machine;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.assertj.core.data.Offset;
import org.hipparchus.complex.Complex;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Voltages at both ends of a cable against the division of voltage over complex impedances
 * (Hipparchus): source, cable and a motor by-passed at full voltage, where all is linear.
 */
class CableReferenceTest {
  /** The circuit is tabulated over slip within 0.2 %; a twentieth of it is left in a drop. */
  private static final Offset<Double> TABULATED = within(1e-4);

  private static Complex of(Supply supply) {
    return new Complex(supply.resistanceOhm(), supply.reactanceOhm());
  }

  @ParameterizedTest
  @CsvSource({"0, 0.02, 0.02", "0.5, 0.02, 0.004", "0.9, 0.06, 0.008", "0.98, 0.004, 0.016"})
  void bothEndsAreThoseOfDividedVoltage(double speed, double rc, double xc) {
    Supply source = new Supply(0.002, 0.02);
    Supply cable = new Supply(rc, xc);
    MachineModel made =
        RunSimulatorReferenceTest.model(new LoadCurve(0.8, 0.05, 0.1, 2, 0.03), 5, source);
    ElectricalPoint point =
        new ElectricalPoint(
            new MachineModel(
                made.plate(),
                made.motor(),
                made.starter(),
                source.plus(cable),
                400,
                made.load(),
                null,
                5,
                null,
                cable));
    point.fullVoltage(speed);
    double slip = 1 - speed;
    double ohm = made.plate().baseImpedanceOhm() / made.motor().admittance(slip);
    double cos = made.motor().powerFactor(slip);
    Complex motor = new Complex(ohm * cos, ohm * Math.sqrt(1 - cos * cos));
    Complex whole = motor.add(of(cable)).add(of(source));
    assertThat(point.busVoltage).isCloseTo(motor.divide(whole).norm(), TABULATED);
    assertThat(point.measuredVoltage)
        .isCloseTo(motor.add(of(cable)).divide(whole).norm(), TABULATED);
    // the two ends differ by more than the tolerance could hide
    assertThat(point.measuredVoltage - point.busVoltage).isGreaterThan(20 * TABULATED.value);
  }
}
