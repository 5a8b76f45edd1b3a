package rampwright.exam.product;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import rampwright.app.advice.Advice;
import rampwright.app.envelope.Verdict;
import rampwright.app.json.AdviceJson;
import rampwright.app.usecase.AdviseAsset;
import rampwright.app.usecase.ChartRenderer;
import rampwright.exam.plant.AssetFolder;
import rampwright.exam.plant.PlantAsset;
import rampwright.exam.plant.PlantSettings;
import rampwright.exam.plant.QuasiSteadyPlant.Conduct;
import rampwright.exam.plant.TrueFigures;
import rampwright.exam.tuner.Adviser;
import rampwright.exam.tuner.CaseMaker;
import rampwright.exam.tuner.Exam;
import rampwright.exam.tuner.ExamCase;
import rampwright.exam.tuner.ProcessAdviser;
import rampwright.exam.tuner.RandomSearch;

/**
 * Whether a trial that met everything is left alone: a bad first trial, one beside the mark, and
 * one with settings that meet the limits on most days. Asked is what the advice says then, and how
 * the figures it expects of the same settings again compare with {@value #DAYS} further days.
 *
 * <p>Arguments: seed, assets.
 */
public final class KeepExam {
  private static final int DAYS = 40;
  private static final int FIRST_DAY = 2000;

  private final Path folder;

  private KeepExam(Path folder) {
    this.folder = folder;
  }

  /**
   * One question.
   *
   * @param shareKept of the days on which the present settings meet the limits
   * @param shareAdvised the same of the advised ones
   * @param chanceKept what is told of the present settings
   * @param seen by figure: share of days inside the told range, and its width over that of the days
   */
  private record Case(
      String name,
      boolean speed,
      String status,
      double chanceKept,
      double chanceAdvised,
      double shareKept,
      double shareAdvised,
      Map<String, double[]> seen) {}

  public static void main(String[] args) throws Exception {
    long seed = Long.parseLong(args[0]);
    int assets = Integer.parseInt(args[1]);
    KeepExam exam = new KeepExam(Files.createTempDirectory("keep"));
    List<Case> cases = new ArrayList<>();
    for (ExamCase question : Exam.questions(seed, assets, 0)) {
      Case one = exam.ask(question);
      if (one != null) {
        cases.add(one);
      }
    }
    report(cases);
  }

  private Case ask(ExamCase question) throws Exception {
    PlantAsset asset = question.asset();
    AssetFolder made = new AssetFolder(folder.resolve(asset.sheet().id()));
    made.writeAsset(asset.sheet().toToml(question.limits()));
    Random random = new Random(asset.seed());
    List<PlantSettings> settings =
        List.of(
            question.first(), RandomSearch.near(question.best(), random, 0.25), question.best());
    TrueFigures last = null;
    for (int k = 0; k < settings.size(); k++) {
      Conduct conduct = new Conduct(6 + asset.seed() % 4, Double.NaN, true);
      PlantAsset.Trial trial = asset.trial(settings.get(k), k + 1, conduct, "");
      made.writeTrial(k + 1, settings.get(k).toToml(), trial.trace(), "");
      last = trial.figures();
    }
    if (last == null || !question.limits().met(last)) {
      return null;
    }
    AdviseAsset use = ProductAdviser.useCase();
    AdviseAsset.Advised asked = use.advise(made.path());
    Advice advice = asked.advice();
    Advice same = use.predict(made.path(), made.trialFolder(3).resolve("settings.toml")).advice();
    Adviser.Seen now = new Adviser.Seen(question.best(), last);
    PlantSettings advised =
        ProcessAdviser.parse(
                AdviceJson.advice(advice, asked.present(), asked.used(), asked.leftOut()),
                new Adviser.Told(question.limits(), List.of(now), asset.seed()))
            .settings();
    if (!isMet(asked)) {
      // By its own readings it was missed: a reason to change, rightly or wrongly.
      return null;
    }
    Map<String, List<Double>> days = new TreeMap<>();
    for (int day = 0; day < DAYS; day++) {
      TrueFigures figures =
          asset.figures(question.best(), asset.day(FIRST_DAY + day), Conduct.WHOLE);
      for (String key : question.limits().byFigure().keySet()) {
        days.computeIfAbsent(key, k -> new ArrayList<>()).add(figures.get(key));
      }
    }
    Map<String, double[]> seen = new TreeMap<>();
    days.forEach(
        (key, values) -> {
          Advice.Range told = same.predicted().get(key);
          if (told != null) {
            double[] sorted = values.stream().mapToDouble(v -> v).sorted().toArray();
            double inside =
                values.stream().filter(v -> v >= told.low() && v <= told.high()).count()
                    / (double) DAYS;
            double width = sorted[(int) (0.95 * DAYS)] - sorted[(int) (0.05 * DAYS)];
            seen.put(key, new double[] {inside, (told.high() - told.low()) / width});
          }
        });
    return new Case(
        asset.sheet().id(),
        asset.meter().hasSpeed(),
        advice.status().key(),
        same.chanceAllMet() == null ? Double.NaN : same.chanceAllMet(),
        advice.chanceAllMet() == null ? Double.NaN : advice.chanceAllMet(),
        CaseMaker.share(asset, question.limits(), question.best(), DAYS),
        CaseMaker.share(asset, question.limits(), advised, DAYS),
        seen);
  }

  private static boolean isMet(AdviseAsset.Advised asked) {
    ChartRenderer.Charted last = asked.charted();
    Verdict verdict = last == null ? null : last.verdict();
    return verdict != null && !Boolean.FALSE.equals(verdict.met());
  }

  private static void report(List<Case> cases) {
    int kept = 0;
    double worse = 0;
    Map<String, List<double[]>> seen = new TreeMap<>();
    for (Case one : cases) {
      System.out.printf(
          Locale.ROOT,
          "%-12s %-8s %-12s same: told %.2f, is %.2f; advised: told %.2f, is %.2f%n",
          one.name(),
          one.speed() ? "speed" : "",
          one.status(),
          one.chanceKept(),
          one.shareKept(),
          one.chanceAdvised(),
          one.shareAdvised());
      kept += one.status().equals("keep") ? 1 : 0;
      worse += one.shareAdvised() - one.shareKept();
      one.seen().forEach((k, v) -> seen.computeIfAbsent(k, x -> new ArrayList<>()).add(v));
    }
    System.out.printf(
        Locale.ROOT,
        "kept %d of %d; told of the same %.2f, is %.2f; change gains %.3f on average%n",
        kept,
        cases.size(),
        cases.stream().mapToDouble(Case::chanceKept).average().orElse(Double.NaN),
        cases.stream().mapToDouble(Case::shareKept).average().orElse(Double.NaN),
        worse / Math.max(1, cases.size()));
    seen.forEach(
        (key, list) ->
            System.out.printf(
                Locale.ROOT,
                "%-28s inside the 5-95 %% range %.2f; range over that of the days: median %.2f%n",
                key,
                list.stream().mapToDouble(v -> v[0]).average().orElse(Double.NaN),
                list.stream().mapToDouble(v -> v[1]).sorted().toArray()[list.size() / 2]));
  }
}
