package rampwright.app.advice;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import rampwright.analysis.fit.AssetData;
import rampwright.analysis.fit.Batch;
import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.LoadCurve;
import rampwright.analysis.machine.LoadKind;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.Nameplate;
import rampwright.analysis.machine.PlateCircuit;
import rampwright.analysis.machine.RunFigures.PhaseFactors;
import rampwright.analysis.machine.SlipTable;
import rampwright.analysis.machine.StarterLaw;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.StopMode;
import rampwright.analysis.machine.Supply;
import rampwright.analysis.machine.TypicalMotor;
import rampwright.analysis.machine.Wiring;

/** Two models alike but for their inertia: a coast shows no current, a led stop does. */
class TellingStopTest {
  private static final Nameplate PLATE =
      new Nameplate(75e3, 400, 138, 50, 1480, 0.85, 0.94, 6.5, 2.0, 2.7, 1.1);
  private static final Chances CHANCES =
      new Chances(
          new AdviceRequest(
              new AssetData(PLATE, LoadKind.LINEAR, 2.9, null, null, 400, 0.016, Wiring.IN_LINE),
              new SettingRanges(Map.of()),
              List.of(),
              List.of(),
              null),
          PhaseFactors.BALANCED,
          4.5,
          new Shown(Set.of(ControlMode.TORQUE_RAMP), true),
          60,
          Double.POSITIVE_INFINITY);

  private static MachineModel model(double inertiaKgM2) {
    return new MachineModel(
        PLATE,
        new SlipTable(PlateCircuit.of(PLATE, TypicalMotor.of(PLATE)), PLATE.torquePerAirGapPower()),
        StarterLaw.EXACT,
        Supply.ofImpedance(0.018, 3),
        400,
        new LoadCurve(0.6, 0.28, 0.42, 1.1, 0.03),
        null,
        inertiaKgM2);
  }

  private static StarterSettings stop(StopMode mode, double release, double rampS) {
    return new StarterSettings(4.0, ControlMode.TORQUE_RAMP, 8, 20, 40, 0, 0, mode, release, rampS);
  }

  private static TellingStop between(double one, double other) {
    return new TellingStop(CHANCES, Batch.IN_TURN, List.of(model(one), model(other)));
  }

  @Test
  void aStopWithoutCurrentTellsNothing() {
    assertThat(between(3, 6).told(stop(StopMode.COAST, 10, 8))).isZero();
  }

  @Test
  void modelsAlikeCannotBeToldApart() {
    assertThat(between(3, 3).told(stop(StopMode.SOFT, 10, 8))).isZero();
  }

  @Test
  void aStopLedFurtherDownTellsMore() {
    double early = between(3, 6).told(stop(StopMode.SOFT, 50, 8));
    double late = between(3, 6).told(stop(StopMode.SOFT, 10, 8));
    assertThat(late).isGreaterThan(2 * early).isPositive();
  }

  @Test
  void theStopThatTellsMostIsTakenAmongThoseLikelyEnough() {
    StarterSettings early = stop(StopMode.SOFT, 50, 8);
    StarterSettings late = stop(StopMode.SOFT, 10, 8);
    List<StarterSettings> both = List.of(stop(StopMode.COAST, 10, 8), early, late);
    TellingStop telling = between(3, 6);
    assertThat(telling.of(both, s -> 0.4, 0.4)).isEqualTo(late);
    assertThat(telling.of(both, s -> s.equals(late) ? 0.1 : 0.4, 0.4)).isEqualTo(early);
    assertThat(telling.of(List.of(stop(StopMode.COAST, 10, 8)), s -> 1, 1)).isNull();
  }
}
