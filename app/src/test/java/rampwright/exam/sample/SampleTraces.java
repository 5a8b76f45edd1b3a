package rampwright.exam.sample;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import rampwright.exam.plant.PlantAsset;
import rampwright.exam.plant.QuasiSteadyPlant;
import rampwright.exam.plant.Run;
import rampwright.exam.plant.TrueFigures;
import rampwright.exam.plant.TruePlant;
import rampwright.exam.wave.WaveMeter;
import rampwright.exam.wave.WavePlant;
import rampwright.exam.wave.WaveRecord;
import rampwright.exam.wave.WaveTruth;

/**
 * Writes the sample traces anew: the same bytes every time.
 *
 * <p>From the top of the project: {@code mvn -q -Dquick -Psample-traces -pl app -am
 * process-test-classes}.
 */
public final class SampleTraces {
  private SampleTraces() {}

  /**
   * @param args the folder to write to
   */
  public static void main(String[] args) throws IOException {
    if (args.length != 1) {
      throw new IllegalArgumentException("one argument is needed: the folder to write to");
    }
    write(Path.of(args[0]), true);
  }

  static void write(Path top, boolean waves) throws IOException {
    for (SampleAsset asset : SeaweedWorks.assets()) {
      Path folder = top.resolve(asset.folder());
      put(folder.resolve("asset.toml"), asset.file());
      int number = 0;
      for (SampleTrial trial : asset.trials()) {
        number++;
        Path into = folder.resolve("trials").resolve(trial.at());
        put(into.resolve("settings.toml"), trial.settings().toToml() + trial.notes());
        if (trial.wave() == null) {
          steady(asset, trial, number, into);
        } else if (waves) {
          wave(asset, trial, trial.wave(), number, into);
        }
      }
    }
  }

  private static void steady(SampleAsset asset, SampleTrial trial, int number, Path into)
      throws IOException {
    PlantAsset plant = asset.plant();
    TruePlant.Day day = day(plant, trial, number);
    Run run = new QuasiSteadyPlant(plant.truth()).run(trial.settings(), day, trial.steady());
    TrueFigures figures =
        TrueFigures.of(run, plant.truth(), plant.sheet().currentA(), plant.sheet().speedRpm());
    Random noise = new Random(plant.seed() + number);
    put(
        into.resolve("trace.csv"),
        plant.meter().read(run, plant.truth().supply(), notes(trial), noise));
    put(
        into.resolve("truth.json"),
        figures.toJson(Map.of("envelope_met", asset.limits().met(figures))));
  }

  private static void wave(
      SampleAsset asset, SampleTrial trial, WavePlant.Conduct conduct, int number, Path into)
      throws IOException {
    PlantAsset plant = asset.plant();
    WaveRecord record =
        new WavePlant(plant).run(trial.settings(), day(plant, trial, number), conduct);
    double in = plant.sheet().currentA();
    new WaveMeter(10 * in, 1000, trial.withSpeed(), true, plant.seed() + number)
        .write(record, notes(trial), into.resolve("trace.csv.gz"));
    put(
        into.resolve("truth.json"),
        new WaveTruth(record, plant.sheet().frequencyHz(), in).json(trial.faults()));
  }

  private static TruePlant.Day day(PlantAsset plant, SampleTrial trial, int number) {
    TruePlant.Day day = plant.day(number);
    return new TruePlant.Day(
        day.supplyFactor(),
        day.loadFactor() * trial.loadFactor(),
        day.stickFactor() * trial.stickFactor());
  }

  private static String notes(SampleTrial trial) {
    return String.format(
            Locale.ROOT,
            "# invented, computed by rampwright.exam.sample.SampleTraces, seed %d; no real machine%n"
                + "# %s%n",
            SeaweedWorks.SEED,
            trial.story())
        .replace("\r", "");
  }

  private static void put(Path file, String text) throws IOException {
    Files.createDirectories(file.getParent());
    Files.writeString(file, text, StandardCharsets.UTF_8);
  }
}
