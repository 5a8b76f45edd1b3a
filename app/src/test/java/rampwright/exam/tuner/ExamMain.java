package rampwright.exam.tuner;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Stream;

/**
 * The exam from a command line.
 *
 * <p>Arguments, each {@code name=value}: {@code assets} (100), {@code impossible} (15), {@code
 * seed} (1), {@code trials} (10), {@code jar} (none: the product does not take part), {@code
 * folder} (a temporary one), {@code baselines} (yes), {@code class} (an {@link Adviser} with a
 * constructor without arguments, for the product in the same process), {@code only} (numbers of
 * achievable questions, with commas between: those alone are made and asked).
 *
 * <p>From the top of the project: {@code mvn -q -Dquick -Pexam -pl app -am process-test-classes
 * -Dexam.assets=100 -Dexam.seed=1 -Dexam.jar=app/target/rampwright.jar}. A value left empty counts
 * as not given.
 */
public final class ExamMain {
  private ExamMain() {}

  public static void main(String[] args) throws IOException, ReflectiveOperationException {
    Map<String, String> given = new LinkedHashMap<>();
    for (String arg : args) {
      int at = arg.indexOf('=');
      if (at < 0) {
        throw new IllegalArgumentException(arg + ": expected name=value");
      }
      if (at < arg.length() - 1) {
        given.put(arg.substring(0, at), arg.substring(at + 1));
      }
    }
    long seed = Long.parseLong(given.getOrDefault("seed", "1"));
    int assets = Integer.parseInt(given.getOrDefault("assets", "100"));
    int impossible = Integer.parseInt(given.getOrDefault("impossible", "15"));
    int trials = Integer.parseInt(given.getOrDefault("trials", "10"));
    String wanted = given.getOrDefault("folder", "");
    Path folder = wanted.isEmpty() ? Files.createTempDirectory("exam") : Path.of(wanted);

    long begin = System.nanoTime();
    String only = given.getOrDefault("only", "");
    List<ExamCase> questions =
        only.isEmpty()
            ? Exam.questions(seed, assets, impossible)
            : Exam.questions(seed, Stream.of(only.split(",")).map(Integer::valueOf).toList());
    long possible = questions.stream().filter(ExamCase::possible).count();
    System.out.printf(
        Locale.ROOT,
        "%d achievable and %d impossible questions, seed %d, made in %.0f s; folders in %s%n",
        possible,
        questions.size() - possible,
        seed,
        (System.nanoTime() - begin) / 1e9,
        folder);
    describe(questions);

    Map<String, Function<ExamCase, Adviser>> advisers = new LinkedHashMap<>();
    if (!"no".equals(given.get("baselines"))) {
      advisers.put("best known", Exam.bestKnown());
      advisers.put("rule of thumb", question -> new RuleOfThumb());
      advisers.put("random search", question -> new RandomSearch());
    }
    if (given.containsKey("jar")) {
      Adviser product = new ProcessAdviser(Path.of(given.get("jar")));
      advisers.put("product", question -> product);
    }
    if (given.containsKey("class")) {
      Adviser product =
          (Adviser) Class.forName(given.get("class")).getDeclaredConstructor().newInstance();
      advisers.put(product.name(), question -> product);
    }
    List<String> details = new ArrayList<>();
    System.out.println(ExamReport.heading());
    for (Map.Entry<String, Function<ExamCase, Adviser>> entry : advisers.entrySet()) {
      List<Exam.Answer> answers = new Exam(trials, folder).sit(questions, entry.getValue());
      System.out.println(ExamReport.line(entry.getKey(), answers));
      String calibration = ExamReport.calibration(answers);
      if (!calibration.isEmpty()) {
        details.add(entry.getKey() + ", stated chance against what came of it\n" + calibration);
      }
      if (entry.getKey().equals("product") || given.containsKey("class")) {
        details.add(entry.getKey() + ", not at once:\n" + ExamReport.details(answers));
      }
    }
    details.forEach(System.out::println);
  }

  private static void describe(List<ExamCase> questions) {
    double share =
        questions.stream()
            .filter(ExamCase::possible)
            .mapToDouble(ExamCase::shareMet)
            .average()
            .orElse(Double.NaN);
    long speed = questions.stream().filter(q -> q.asset().meter().hasSpeed()).count();
    System.out.printf(
        Locale.ROOT,
        "best fixed settings meet an achievable envelope on %.1f %% of days; %d with speed%n",
        100 * share,
        speed);
    Map<String, Integer> trades = new LinkedHashMap<>();
    questions.forEach(q -> trades.merge(q.asset().trade(), 1, Integer::sum));
    System.out.println(trades);
    questions.stream()
        .filter(q -> !q.possible())
        .forEach(
            q ->
                System.out.printf(
                    Locale.ROOT,
                    "  impossible: %s, %s, the best found misses by %.0f %%%n",
                    q.asset().sheet().id(),
                    q.madeImpossibleBy(),
                    100 * Math.min(9, q.shortfall())));
  }
}
