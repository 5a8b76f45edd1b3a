package rampwright.exam.product;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import rampwright.acquisition.toml.TomlProblemsException;
import rampwright.analysis.fit.AssetFit;
import rampwright.analysis.machine.StarterSettings;
import rampwright.app.asset.AssetFile;
import rampwright.app.asset.AssetFiles;
import rampwright.app.asset.MachineSheet;
import rampwright.app.asset.TrialFiles;
import rampwright.app.ready.Readiness;
import rampwright.app.ready.ReadyLine;
import rampwright.exam.plant.AssetGenerator;
import rampwright.exam.plant.Limits;
import rampwright.exam.plant.PlantAsset;
import rampwright.exam.plant.PlantSettings;
import rampwright.exam.plant.QuasiSteadyPlant.Conduct;
import rampwright.exam.plant.Setting;
import rampwright.exam.plant.TrueFigures;

/**
 * Readiness asked of plants whose truth is known and is not the product's model: what it says
 * before the first trial against what the first trials do.
 *
 * <p>Settings are those a person might begin with, the weak ones included. A case is good when the
 * start comes to full speed on each of {@value #DAYS} days, bad when on none; one that starts on
 * some days only is no question anybody can be marked on and is passed over.
 */
public final class ReadyExam {
  private static final int DAYS = 6;
  private static final double[] TORQUES = {5, 15, 20, 20, 30};
  private static final double[] VOLTS = {15, 20, 30, 30, 40, 50};
  private static final double[] RAMPS = {8, 10, 15, 20};
  private static final double[] CURRENTS = {1.8, 2.3, 2.5, 3, 3, 3.5, 3.5, 4, 4.5};

  private final AssetGenerator generator;
  private final long seed;

  public ReadyExam(long seed) {
    this.generator = new AssetGenerator(seed);
    this.seed = seed;
  }

  /**
   * One question and its answer.
   *
   * @param good whether it starts every day; else it starts on none
   * @param ready what readiness said
   */
  public record Case(
      int number, PlantAsset asset, PlantSettings settings, boolean good, Readiness ready) {
    /** The line of a check; null when there is none. */
    public ReadyLine line(String check) {
      for (ReadyLine line : ready.lines()) {
        if (line.check().equals(check)) {
          return line;
        }
      }
      throw new IllegalStateException("no line " + check);
    }

    /** The checks that hold it back. */
    public List<String> holds() {
      return ready.lines().stream()
          .filter(line -> line.state() == ReadyLine.State.HOLD)
          .map(ReadyLine::check)
          .toList();
    }
  }

  /** So many good and bad cases, in the order they are drawn. */
  public List<Case> cases(int good, int bad) {
    List<Case> cases = new ArrayList<>();
    int goods = 0;
    int bads = 0;
    for (int n = 0; goods < good || bads < bad; n++) {
      PlantAsset asset = generator.asset(n);
      PlantSettings settings = settings(random(n));
      int completed = 0;
      for (int day = 0; day < DAYS; day++) {
        TrueFigures figures = asset.figures(settings, asset.day(900 + day), Conduct.START_ONLY);
        completed += figures.completed() ? 1 : 0;
      }
      boolean isGood = completed == DAYS;
      boolean wanted = isGood ? goods < good : completed == 0 && bads < bad;
      if (wanted) {
        cases.add(new Case(n, asset, settings, isGood, ready(asset, settings)));
        goods += isGood ? 1 : 0;
        bads += isGood ? 0 : 1;
      }
    }
    return cases;
  }

  /** Seeds in a row give near the same first number; the first few are thrown away. */
  private Random random(int number) {
    Random random = new Random(seed * 1_000_003L + number * 0x9E3779B97F4A7C15L);
    random.nextLong();
    return random;
  }

  private static PlantSettings settings(Random random) {
    return PlantSettings.plain(random.nextBoolean())
        .with(Setting.INITIAL_TORQUE, TORQUES[random.nextInt(TORQUES.length)])
        .with(Setting.INITIAL_VOLTAGE, VOLTS[random.nextInt(VOLTS.length)])
        .with(Setting.RAMP_UP, RAMPS[random.nextInt(RAMPS.length)])
        .with(Setting.CURRENT_LIMIT, CURRENTS[random.nextInt(CURRENTS.length)]);
  }

  /** What the product says, through its own files. */
  private static Readiness ready(PlantAsset plant, PlantSettings settings) {
    try {
      AssetFile asset =
          AssetFiles.parse(Path.of("asset.toml"), plant.sheet().toToml(new Limits(Map.of())));
      StarterSettings set =
          MachineSheet.settings(
              TrialFiles.parse("settings.toml", settings.toToml()).settings(), asset.asset());
      return Readiness.of(
          new Readiness.Question(
              asset,
              AssetFit.fit(MachineSheet.data(asset.asset()), List.of()),
              0,
              set,
              "settings.toml",
              List.of()));
    } catch (TomlProblemsException e) {
      throw new IllegalStateException(e);
    }
  }

  /** Prints a table. Arguments: good cases, bad cases, seed. */
  public static void main(String[] args) {
    List<Case> cases =
        new ReadyExam(Long.parseLong(args[2]))
            .cases(Integer.parseInt(args[0]), Integer.parseInt(args[1]));
    for (Case one : cases) {
      System.out.printf(
          Locale.ROOT,
          "%s %d %s %s | %s | %s | %s%n",
          one.good() ? "good" : "bad ",
          one.number(),
          one.asset().sheet().id(),
          one.settings().torqueRamp() ? "T" : "V",
          one.line("settings start the load").text(),
          one.line("torque margin").text(),
          one.holds());
    }
  }
}
