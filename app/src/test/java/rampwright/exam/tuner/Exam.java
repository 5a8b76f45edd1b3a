package rampwright.exam.tuner;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.IntStream;
import rampwright.exam.plant.AssetFolder;
import rampwright.exam.plant.PlantAsset;
import rampwright.exam.plant.PlantSettings;
import rampwright.exam.plant.QuasiSteadyPlant.Conduct;

/**
 * Lets an adviser work through questions, one trial after the other, and writes down how it went.
 *
 * <p>Each question gets its own asset folder with the first (bad) trial in it; the adviser
 * proposes, the true plant makes the trial on the next day, its readings go into the folder, and so
 * on until every limit is met on the plant's own figures or the trials are used up. The same days
 * meet every adviser.
 */
public final class Exam {
  private final int mostTrials;
  private final Path workFolder;

  /**
   * @param mostTrials after the first
   * @param workFolder where asset folders are made, one for each question and adviser
   */
  public Exam(int mostTrials, Path workFolder) {
    this.mostTrials = mostTrials;
    this.workFolder = workFolder;
  }

  /**
   * One proposal and what came of it.
   *
   * @param number of the trial after the first
   * @param chance stated; NaN: none
   * @param seconds the adviser took
   * @param missed limits missed, by figure, each with its excess as a share of the limit
   * @param failure what went wrong in the adviser; empty: nothing
   */
  public record Step(
      int number,
      String status,
      double chance,
      boolean met,
      double worst,
      Map<String, Double> missed,
      double i2tRatioS,
      double seconds,
      PlantSettings settings,
      String failure) {}

  /** How one question went. */
  public record Answer(ExamCase question, List<Step> steps) {
    /** Trials after the first until all limits were met; 0: never. */
    public int metAt() {
      return steps.stream().filter(Step::met).mapToInt(Step::number).findFirst().orElse(0);
    }

    /** The proposal at which it first said that the limits cannot be met; 0: never. */
    public int cannotMeetAt() {
      return steps.stream()
          .filter(step -> "cannot meet".equals(step.status()))
          .mapToInt(Step::number)
          .findFirst()
          .orElse(0);
    }

    public double i2tRatioS() {
      return steps.stream().mapToDouble(Step::i2tRatioS).sum();
    }
  }

  /** All questions by one adviser. */
  public List<Answer> sit(List<ExamCase> questions, Function<ExamCase, Adviser> advisers) {
    List<Answer> answers = new ArrayList<>();
    for (ExamCase question : questions) {
      Adviser adviser = advisers.apply(question);
      answers.add(sit(question, adviser));
    }
    return answers;
  }

  private Answer sit(ExamCase question, Adviser adviser) {
    PlantAsset asset = question.asset();
    AssetFolder folder =
        new AssetFolder(
            workFolder
                .resolve(adviser.name().replace(' ', '-'))
                .resolve(asset.sheet().id() + (question.possible() ? "" : "-x")));
    folder.writeAsset(asset.sheet().toToml(question.limits()));
    List<Adviser.Seen> seen = new ArrayList<>();
    seen.add(trial(question, folder, question.first(), 1));
    List<Step> steps = new ArrayList<>();
    int most = question.possible() ? mostTrials : Math.min(3, mostTrials);
    for (int number = 1; number <= most; number++) {
      PlantSettings before = seen.get(seen.size() - 1).settings();
      long begin = System.nanoTime();
      Adviser.Proposal proposal;
      String failure = "";
      try {
        proposal =
            adviser.next(folder.path(), new Adviser.Told(question.limits(), seen, asset.seed()));
      } catch (AdviserFailedException e) {
        proposal = new Adviser.Proposal("failed", before, Double.NaN);
        failure = String.valueOf(e.getMessage());
      }
      double seconds = (System.nanoTime() - begin) / 1e9;
      Adviser.Seen now = trial(question, folder, proposal.settings(), number + 1);
      seen.add(now);
      double worst = question.limits().worst(now.figures());
      steps.add(
          new Step(
              number,
              proposal.status(),
              proposal.chance(),
              worst <= 0,
              worst,
              question.limits().missed(now.figures()),
              now.figures().get("i2t_ratio_s"),
              seconds,
              proposal.settings(),
              failure));
      if (worst <= 0 || (!question.possible() && proposal.isCannotMeet())) {
        break;
      }
    }
    return new Answer(question, steps);
  }

  private static Adviser.Seen trial(
      ExamCase question, AssetFolder folder, PlantSettings settings, int number) {
    Conduct conduct = new Conduct(6 + question.asset().seed() % 4, Double.NaN, true);
    PlantAsset.Trial trial = question.asset().trial(settings, number, conduct, "");
    folder.writeTrial(number, settings.toToml(), trial.trace(), "");
    return new Adviser.Seen(settings, trial.figures());
  }

  /** Achievable questions by their numbers. */
  public static List<ExamCase> questions(long seed, List<Integer> numbers) {
    CaseMaker maker = new CaseMaker(seed);
    List<ExamCase> questions = new ArrayList<>();
    numbers.forEach(n -> questions.add(maker.achievable(n)));
    return questions;
  }

  /** Questions: achievable ones, then impossible ones made from further assets. */
  public static List<ExamCase> questions(long seed, int achievable, int impossible) {
    CaseMaker maker = new CaseMaker(seed);
    List<ExamCase> questions = questions(seed, IntStream.range(0, achievable).boxed().toList());
    ImpossibleMaker tight = new ImpossibleMaker(seed);
    for (int n = achievable, made = 0; made < impossible; n++) {
      ExamCase question = tight.from(maker.achievable(n));
      if (question != null) {
        questions.add(question);
        made++;
      }
    }
    return questions;
  }

  /** The best fixed settings, known in advance: the ceiling, since days differ. */
  public static Function<ExamCase, Adviser> bestKnown() {
    return question ->
        new Adviser() {
          @Override
          public String name() {
            return "best known";
          }

          @Override
          public Proposal next(Path folder, Told told) {
            return new Proposal(
                question.possible() ? "change" : "cannot meet",
                question.best(),
                question.shareMet());
          }
        };
  }
}
