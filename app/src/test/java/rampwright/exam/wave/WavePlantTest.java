package rampwright.exam.wave;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import rampwright.exam.plant.AssetGenerator;
import rampwright.exam.plant.PlantAsset;
import rampwright.exam.plant.PlantSettings;
import rampwright.exam.plant.QuasiSteadyPlant;
import rampwright.exam.plant.Setting;
import rampwright.exam.plant.TrueFigures;
import rampwright.exam.plant.TruePlant;

/** The waveform plant against the quasi-steady one: two models, two solvers, one asset. */
class WavePlantTest {
  private static final PlantAsset PUMP = new AssetGenerator(7).asset(0, "pump", 90, 50);
  private static final PlantSettings SOFT =
      PlantSettings.plain(true)
          .with(Setting.RAMP_UP, 5)
          .withSoftStop(true)
          .with(Setting.RAMP_DOWN, 5);

  /** Leakage is taken linear and harmonics differ: 4 % on the start, 2 % on the stop. */
  @Test
  void aTorqueRampAndSoftStopAreThoseOfTheQuasiSteadyPlant() {
    WaveRecord record =
        new WavePlant(PUMP).run(SOFT, TruePlant.Day.USUAL, WavePlant.Conduct.sound(5000, 16, 2));
    String truth = truth(record);
    TrueFigures other = PUMP.figures(SOFT, TruePlant.Day.USUAL, QuasiSteadyPlant.Conduct.WHOLE);
    near(truth, other, "start_time_s", 0.04);
    near(truth, other, "peak_current_ratio", 0.04);
    near(truth, other, "i2t_ratio_s", 0.05);
    near(truth, other, "voltage_dip_pct", 0.04);
    near(truth, other, "controlled_time_s", 0.02);
    near(truth, other, "stop_time_s", 0.02);
  }

  @Test
  void aLostPhaseCarriesNothingAndTheOthersCarryTheSame() {
    WavePlant.Conduct conduct =
        WavePlant.Conduct.sound(5000, 3.2, 2).withLostPhase(1).withTimeLimit(2);
    WaveRecord record = new WavePlant(PUMP).run(SOFT, TruePlant.Day.USUAL, conduct);
    double[] one = record.cycleRms(0, 50);
    double[] two = record.cycleRms(1, 50);
    double[] three = record.cycleRms(2, 50);
    int before = 180;
    int after = 250;
    assertThat(one[before]).isCloseTo(two[before], within(0.05 * two[before]));
    assertThat(one[after]).isZero();
    assertThat(two[after]).isGreaterThan(50).isCloseTo(three[after], within(1e-6));
    assertThat(record.releaseS()).isCloseTo(3, within(1e-3));
    assertThat(truth(record)).contains("\"tripped\": true", "\"full_speed_s\": null");
  }

  @Test
  void aDipIsSeenOnTheSupplySide() {
    WavePlant.Conduct conduct = WavePlant.Conduct.sound(5000, 3, 2).withDip(1, 0.3, 0.6);
    WaveRecord record = new WavePlant(PUMP).run(SOFT, TruePlant.Day.USUAL, conduct);
    double[] v = record.cycleRms(3, 50);
    assertThat(v[212] / v[190]).isBetween(0.5, 0.64);
  }

  private static String truth(WaveRecord record) {
    return new WaveTruth(record, 50, PUMP.sheet().currentA()).json(List.of());
  }

  private static void near(String truth, TrueFigures other, String key, double share) {
    Matcher matcher = Pattern.compile("\"" + key + "\": ([0-9.]+)").matcher(truth);
    assertThat(matcher.find()).as(key).isTrue();
    double value = Double.parseDouble(matcher.group(1));
    assertThat(value).as(key).isCloseTo(other.get(key), within(share * other.get(key)));
  }
}
