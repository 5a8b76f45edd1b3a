package rampwright.exam.product;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import rampwright.app.advice.Advice;
import rampwright.app.usecase.AdviseAsset;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.UsageProblem;
import rampwright.exam.plant.AssetFolder;
import rampwright.exam.plant.PlantAsset;
import rampwright.exam.plant.PlantSettings;
import rampwright.exam.plant.QuasiSteadyPlant.Conduct;
import rampwright.exam.plant.Setting;
import rampwright.exam.plant.TrueFigures;
import rampwright.exam.tuner.CaseMaker;
import rampwright.exam.tuner.ExamCase;

/**
 * How well a model fitted to one or two trials predicts the figures of settings not yet tried:
 * share of truths inside the 5 to 95 % range, and how far medians are off.
 *
 * <p>Assets, first and best settings are the exam's; the second trial's settings lie half way from
 * the first to the best. Arguments: seed, number of assets, and, to see a figure of each asset, its
 * key.
 */
public final class FitExam {
  private static final int DAY_OF_THE_THIRD = 3;

  private FitExam() {}

  private static final class Score {
    private int inside;
    private int count;
    private final List<Double> errors = new ArrayList<>();
    private double signed;

    void add(Advice.Range range, double truth) {
      count++;
      inside += truth >= range.low() && truth <= range.high() ? 1 : 0;
      double off = Math.log(range.median() / truth);
      errors.add(Math.abs(off));
      signed += off;
    }

    String line() {
      errors.sort(Double::compare);
      return String.format(
          Locale.ROOT,
          "%3d of %3d inside, median error %5.1f %%, 90 %% below %5.1f %%, mean %+5.1f %%",
          inside,
          count,
          100 * errors.get(errors.size() / 2),
          100 * errors.get((int) (0.9 * (errors.size() - 1))),
          100 * signed / count);
    }
  }

  public static void main(String[] args) throws IOException, InputProblem, UsageProblem {
    long seed = Long.parseLong(args[0]);
    int assets = Integer.parseInt(args[1]);
    String shown = args.length > 2 ? args[2] : "";
    Path work = Files.createTempDirectory("fit-exam");
    AdviseAsset advise = ProductAdviser.useCase();
    Map<String, Score> scores = new LinkedHashMap<>();
    CaseMaker maker = new CaseMaker(seed);
    for (int n = 0; n < assets; n++) {
      ExamCase question = maker.achievable(n);
      PlantAsset asset = question.asset();
      AssetFolder folder = new AssetFolder(work.resolve(Integer.toString(n)));
      folder.writeAsset(asset.sheet().toToml(question.limits()));
      Conduct conduct = new Conduct(6, Double.NaN, true);
      PlantSettings[] made = {question.first(), between(question.first(), question.best())};
      TrueFigures truth =
          asset.figures(question.best(), asset.day(DAY_OF_THE_THIRD), Conduct.WHOLE);
      Path wanted = folder.path().resolve("wanted.toml");
      Files.writeString(wanted, question.best().toToml());
      for (int trials = 1; trials <= made.length; trials++) {
        PlantAsset.Trial trial = asset.trial(made[trials - 1], trials, conduct, "");
        folder.writeTrial(trials, made[trials - 1].toToml(), trial.trace(), "");
        Advice advice = advise.predict(folder.path(), wanted).advice();
        String group =
            "after " + trials + (asset.meter().hasSpeed() ? " with speed" : " no speed  ");
        for (Map.Entry<String, Advice.Range> entry : advice.predicted().entrySet()) {
          double value = truth.get(entry.getKey());
          if (entry.getKey().equals(shown)) {
            Advice.Range range = entry.getValue();
            System.out.printf(
                Locale.ROOT,
                "%-24s %-12s %s truth %.4g told %.4g, %.4g to %.4g%s%n",
                group,
                asset.sheet().id(),
                shown,
                value,
                range.median(),
                range.low(),
                range.high(),
                value < range.low() || value > range.high() ? "  outside" : "");
          }
          if (truth.completed() && value > 0) {
            scores
                .computeIfAbsent(group + " " + entry.getKey(), key -> new Score())
                .add(entry.getValue(), value);
          }
        }
      }
    }
    scores.entrySet().stream()
        .sorted(Map.Entry.comparingByKey())
        .forEach(e -> System.out.printf("%-52s %s%n", e.getKey(), e.getValue().line()));
  }

  private static PlantSettings between(PlantSettings first, PlantSettings best) {
    PlantSettings out = first.withSoftStop(best.softStop());
    for (Setting setting : Setting.values()) {
      out = out.with(setting, 0.5 * (first.get(setting) + best.get(setting)));
    }
    return out;
  }
}
