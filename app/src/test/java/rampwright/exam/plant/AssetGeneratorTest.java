package rampwright.exam.plant;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

class AssetGeneratorTest {
  private static final Limits NONE = new Limits(Map.of());

  @Test
  void theSameSeedGivesTheSameBytes() {
    PlantSettings settings = PlantSettings.plain(true);
    for (int n = 0; n < 3; n++) {
      PlantAsset one = new AssetGenerator(5).asset(n);
      PlantAsset two = new AssetGenerator(5).asset(n);
      assertThat(one.sheet().toToml(NONE)).isEqualTo(two.sheet().toToml(NONE));
      assertThat(one.trial(settings, 1, QuasiSteadyPlant.Conduct.WHOLE, "").trace())
          .isEqualTo(two.trial(settings, 1, QuasiSteadyPlant.Conduct.WHOLE, "").trace());
    }
  }

  @Test
  void assetsAreOfManyKindsAndTheirPlatesAreNearButNotTheTruth() {
    Set<String> trades = new HashSet<>();
    Set<Integer> poles = new HashSet<>();
    for (int n = 0; n < 60; n++) {
      PlantAsset asset = new AssetGenerator(11).asset(n);
      TrueMachine machine = asset.truth().machine();
      trades.add(asset.trade());
      poles.add(2 * machine.polePairs());
      double plate = asset.sheet().currentA();
      assertThat(plate / machine.ratedCurrentA()).isBetween(0.97, 1.03);
      assertThat(asset.sheet().powerFactor()).isBetween(0.6, 0.95);
      assertThat(asset.sheet().efficiencyPct()).isBetween(82.0, 98.0);
      assertThat(asset.sheet().lockedCurrentRatio()).isBetween(4.3, 8.5);
    }
    assertThat(trades).contains("pump", "fan", "conveyor", "compressor", "mixer", "crusher");
    assertThat(poles).contains(2, 4, 6, 8);
  }

  /**
   * The limit acts on what the starter reads; it may be exceeded only by the lag of the control.
   */
  @Test
  void theCurrentLimitHolds() {
    for (int n = 0; n < 20; n++) {
      PlantAsset asset = new AssetGenerator(3).asset(n);
      PlantSettings settings = PlantSettings.plain(false).with(Setting.INITIAL_VOLTAGE, 80);
      TrueFigures figures =
          asset.figures(settings, asset.day(1), QuasiSteadyPlant.Conduct.START_ONLY);
      double most = 0;
      for (double share : asset.truth().supply().currentShares()) {
        most = Math.max(most, share);
      }
      double limit = 3.5 / asset.truth().starter().currentGain() * most;
      assertThat(figures.get("peak_current_ratio")).as("asset %s", n).isLessThan(1.01 * limit);
    }
  }
}
