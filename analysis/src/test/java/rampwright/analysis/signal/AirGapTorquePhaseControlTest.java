package rampwright.analysis.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;

/**
 * The torque estimates on phase-controlled waveforms of a motor model ({@link DqPhaseControl}),
 * with the voltage taken on either side of the thyristors.
 *
 * <p>No published figures exist for this; the oracle is the model's own torque, and the model is
 * tied to the handbook by its locked-rotor point.
 */
class AirGapTorquePhaseControlTest {
  private static final DqStart MACHINE = DqStart.KRAUSE_3_HP;
  private static final AirGapTorque TORQUE = new AirGapTorque(4, 0.435);
  private static final double RATE_HZ = 10_000;
  private static final SampleWindow CYCLE = new SampleWindow(1900, 1900 + RATE_HZ / 60);

  @Test
  void modelHasTheHandbooksLockedRotorPoint() {
    // Krause 3 hp, locked: 65.74 A, 52.97 N m (equivalent circuit; derived). Thyristors that let
    // go at each zero of current and fire again within a 5 us step cost a little: 0.5 %.
    DqPhaseControl.Run run = new DqPhaseControl(MACHINE, 0, 1).run(RATE_HZ);
    assertThat(power(run.supply()).effectiveCurrentA()).isCloseTo(65.74, within(0.05));
    assertThat(mean(run.torqueNm())).isCloseTo(52.97, within(0.005 * 52.97));
  }

  @ParameterizedTest
  @CsvSource({
    "60, 1",
    "75, 1",
    "90, 1",
    "105, 1",
    "75, 0.5",
    "105, 0.5",
    "60, 0.1",
    "90, 0.1",
  })
  void estimatesFollowTheModel(double firingDeg, double slip) {
    // At the terminals: six to twelve voltage steps a cycle of 167 samples, each dated to half a
    // sample; found to cost 2.4 % to 90 degrees and 4.7 % at 105, where the torque is a fourteenth
    // of the full one. From power: rotor harmonics at the resistance of low frequency, and cycles
    // that do not quite repeat at 105 degrees; found within 0.5 % and 2.7 %.
    boolean deep = firingDeg > 90;
    DqPhaseControl.Run run = new DqPhaseControl(MACHINE, firingDeg, slip).run(RATE_HZ);
    double model = mean(run.torqueNm());
    double terminal = waveform(run.terminal());
    double supply = waveform(run.supply());
    double fromPower = TORQUE.fromPowerNm(power(run.supply()), 60, 0.816);
    double withoutRotor = TORQUE.fromPowerNm(power(run.supply()), 60, 0);
    assertThat(terminal).isCloseTo(model, within((deep ? 0.06 : 0.04) * model));
    assertThat(fromPower).isCloseTo(model, within((deep ? 0.035 : 0.01) * model));
    assertThat(withoutRotor).isBetween(model, (deep ? 1.12 : 1.05) * model);
    // The documented fault of the waveform formula with the supply's voltage: too large.
    assertThat(supply).isBetween(model, (deep ? 1.20 : 1.08) * model);
  }

  @Test
  void powerIsTheSameOnBothSidesOfIdealThyristors() {
    // To the dating of the terminal voltage's steps; the supply's side has none.
    DqPhaseControl.Run run = new DqPhaseControl(MACHINE, 75, 1).run(RATE_HZ);
    double supplyW = power(run.supply()).activePowerW();
    assertThat(power(run.terminal()).activePowerW()).isCloseTo(supplyW, within(0.02 * supplyW));
  }

  @Test
  void badInputIsNamed() {
    ThreeWirePower power = power(new DqPhaseControl(MACHINE, 75, 1).run(RATE_HZ).supply());
    assertThatThrownBy(() -> TORQUE.fromPowerNm(power, 0, 0)).hasMessageContaining("0.0 Hz");
    assertThatThrownBy(() -> new AirGapTorque(3, 0.1)).hasMessageContaining("3 poles");
    assertThatThrownBy(() -> new AirGapTorque(4, Double.NaN)).hasMessageContaining("NaN ohm");
  }

  private static double waveform(Map<ChannelName, Samples> channels) {
    ThreeWire circuit = ThreeWire.of(channels).orElseThrow();
    return TORQUE.meansNm(circuit, 1 / RATE_HZ, List.of(CYCLE))[0];
  }

  private static ThreeWirePower power(Map<ChannelName, Samples> channels) {
    ThreeWire circuit = ThreeWire.of(channels).orElseThrow();
    return ThreeWirePower.over(circuit, new OneCycleDft(CYCLE, circuit.size(), 1));
  }

  private static double mean(Samples samples) {
    return OneCycleDft.of(samples, CYCLE, 0).mean();
  }
}
