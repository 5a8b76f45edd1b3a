package rampwright.analysis.machine;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;

class PlateCircuitTest {

  @Test
  void fittedCircuitMeetsThePlate() {
    Nameplate[] plates = {
      new Nameplate(55e3, 400, 98.6, 50, 1459, 0.85, 0.928, 5.2, 1.3, 2.4, null),
      new Nameplate(630e3, 480, 903, 60, 1785, 0.89, 0.973, 7.3, 1.5, 2.9, null),
      new Nameplate(355e3, 480, 520, 60, 1775, 0.89, 0.956, 5.6, 1.0, 1.9, null),
      new Nameplate(55e3, 480, 85.7, 60, 1174, 0.81, 0.938, 5.9, 2.1, 3.1, null),
      new Nameplate(200e3, 480, 293, 60, 3548, 0.90, 0.94, 6.4, 0.9, 2.6, null),
      new Nameplate(7.5e3, 400, 15.2, 50, 1450, 0.83, 0.87, null, null, null, null)
    };
    for (Nameplate plate : plates) {
      TypicalMotor typical = TypicalMotor.of(plate);
      CageCircuit circuit = PlateCircuit.of(plate, typical);
      double[] errors =
          PlateCircuit.plateErrors(
              circuit, new SlipTable(circuit, plate.torquePerAirGapPower()), plate, typical);
      for (double error : errors) {
        // Plates are rounded and need not belong to any one circuit: a few percent is agreement.
        assertThat(Math.abs(error)).as(plate + " " + circuit).isLessThan(0.05);
      }
    }
  }

  @Test
  void tableFollowsTheCircuit() {
    Nameplate plate = RunSimulatorReferenceTest.PLATE;
    CageCircuit circuit = PlateCircuit.of(plate, TypicalMotor.of(plate));
    SlipTable table = new SlipTable(circuit, plate.torquePerAirGapPower());
    Percentage stated = Percentage.withPercentage(0.2);
    for (double slip = 0.001; slip <= 1.0; slip *= 1.07) {
      CageCircuit.Point point = circuit.at(slip);
      assertThat(table.admittance(slip)).isCloseTo(point.admittance(), stated);
      assertThat(table.torque(slip))
          .isCloseTo(point.airGapPower() * plate.torquePerAirGapPower(), stated);
    }
  }

  @Test
  void missingPlateNumbersAreEstimatedAndNamed() {
    Nameplate plate = new Nameplate(30e3, 400, 56.2, 50, 1455, 0.86, 0.904, null, 1.3, null, null);
    TypicalMotor typical = TypicalMotor.of(plate);
    assertThat(typical.estimated())
        .containsExactly("locked_rotor_current_ratio", "breakdown_torque_ratio", "inertia_kgm2");
    assertThat(typical.currentSigma()).isGreaterThan(2 * 0.07);
    assertThat(typical.torqueSigma()).isCloseTo(0.10, within(1e-12));
  }

  @Test
  void aSpeedThatBelongsToNoPoleNumberIsRefused() {
    assertThatThrownBy(
            () -> new Nameplate(30e3, 400, 56, 50, 1100, 0.86, 0.9, null, null, null, null))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("rated slip")
        .hasMessageContaining("check rated speed");
  }

  @Test
  void polePairsFollowFromFrequencyAndSpeed() {
    assertThat(RunSimulatorReferenceTest.PLATE.polePairs()).isEqualTo(2);
    assertThat(
            new Nameplate(200e3, 480, 293, 60, 3548, 0.9, 0.94, null, null, null, null).polePairs())
        .isEqualTo(1);
  }
}
