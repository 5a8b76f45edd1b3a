package rampwright.analysis.fit;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.LoadKind;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.Wiring;

/** What is believed of a stop before it is seen, and what is learned from one that is. */
class StopEvidenceTest {
  private static final StarterSettings COASTING =
      SimulatedTrial.settings(ControlMode.TORQUE_RAMP, 3.4, 9, 20);

  private static List<Double> speedSigmas(double runS) {
    BinnedTrial trial =
        new BinnedTrial(SimulatedTrial.running(COASTING, runS, 1), SimulatedTrial.DATA);
    List<Double> out = new ArrayList<>();
    for (BinnedTrial.Point point : trial.points) {
      if (point.timeS() > trial.cutS) {
        out.add(point.speedSigma());
      }
    }
    return out;
  }

  /** Counted from the start, a coast after half a minute of run was blurred to five times that. */
  @Test
  void aLongRunDoesNotBlurTheStopAfterIt() {
    List<Double> soon = speedSigmas(3);
    List<Double> late = speedSigmas(33);
    assertThat(late).hasSameSizeAs(soon);
    for (int k = 0; k < soon.size(); k++) {
      assertThat(late.get(k)).isCloseTo(soon.get(k), Percentage.withPercentage(20));
    }
  }

  private static AssetData vague(LoadKind kind) {
    return new AssetData(SimulatedTrial.PLATE, kind, null, null, null, 400, 0.016, Wiring.IN_LINE);
  }

  private static double share(LoadKind kind, java.util.function.Predicate<MachineModel> holds) {
    List<MachineModel> models =
        AssetFit.fit(vague(kind), List.of()).models(96, 400, 0, new Random(1));
    return models.stream().filter(holds).count() / (double) models.size();
  }

  /**
   * A load's inertia is not below zero. The rotor's own is 1.1 kg m2, 6 % by its plate; two and a
   * half times 6 % is the tolerance.
   */
  @Test
  void motorAndLoadTogetherAreNotLighterThanTheRotor() {
    double rotor = 1.1 * (1 - 0.15);
    assertThat(share(LoadKind.QUADRATIC, m -> m.inertiaKgM2() > rotor)).isEqualTo(1);
    assertThat(share(LoadKind.CONSTANT, m -> m.inertiaKgM2() > rotor)).isEqualTo(1);
  }

  /**
   * A pump's torque near 15 % speed is 5 to 10 % of rated (common practice, see LoadCurve): the
   * prior may not call that unlikely, nor what good bearings make less.
   */
  @Test
  void aPumpsFrictionIsBelievedToBeWhatPracticeSays() {
    double within =
        share(LoadKind.QUADRATIC, m -> m.load().at(0.15) > 0.05 && m.load().at(0.15) < 0.10);
    assertThat(within).isBetween(0.25, 0.6);
    assertThat(share(LoadKind.QUADRATIC, m -> m.load().at(0.15) > 0.10)).isGreaterThan(0.08);
  }

  /** A crusher that starts empty rubs little too: its least torque goes with its load. */
  @Test
  void theLeastTorqueOfAConveyorGoesWithItsLoad() {
    assertThat(
            share(LoadKind.CONSTANT, m -> m.load().minimumTorque() > 1.4 * m.load().fullTorque()))
        .isLessThan(0.1);
  }
}
