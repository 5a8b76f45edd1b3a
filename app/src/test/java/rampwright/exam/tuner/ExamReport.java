package rampwright.exam.tuner;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** The score of one adviser, as text. */
public final class ExamReport {
  private static final int[] WITHIN = {1, 2, 3, 5, 10};
  private static final double[] EDGES = {0, 0.2, 0.4, 0.6, 0.8, 0.9, 0.95, 1.0001};

  private ExamReport() {}

  /** Heading of the table of {@link #line}. */
  public static String heading() {
    return String.format(
        Locale.ROOT,
        "%-14s %6s %6s %6s %6s %6s | %9s %9s | %11s %12s | %8s",
        "adviser",
        "<=1",
        "<=2",
        "<=3",
        "<=5",
        "<=10",
        "I2t sum",
        "trials",
        "cannot meet",
        "falsely said",
        "s worst");
  }

  /**
   * One line: share of achievable questions met within 1, 2, 3, 5, 10 trials after the first (%);
   * I2t spent, sum of ratios, s; trials used; impossible questions recognised, of all; achievable
   * ones said to be impossible.
   */
  public static String line(String name, List<Exam.Answer> answers) {
    List<Exam.Answer> possible = new ArrayList<>();
    List<Exam.Answer> impossible = new ArrayList<>();
    answers.forEach(a -> (a.question().possible() ? possible : impossible).add(a));
    StringBuilder text = new StringBuilder(String.format(Locale.ROOT, "%-14s", name));
    for (int within : WITHIN) {
      text.append(String.format(Locale.ROOT, " %6.1f", 100 * metWithin(possible, within)));
    }
    double i2t = possible.stream().mapToDouble(Exam.Answer::i2tRatioS).sum();
    int trials = possible.stream().mapToInt(a -> a.steps().size()).sum();
    long found = impossible.stream().filter(a -> a.cannotMeetAt() > 0).count();
    long falsely = possible.stream().filter(a -> a.cannotMeetAt() > 0).count();
    double slowest =
        answers.stream()
            .flatMap(a -> a.steps().stream())
            .mapToDouble(Exam.Step::seconds)
            .max()
            .orElse(0);
    text.append(
        String.format(
            Locale.ROOT,
            " | %9.0f %9d | %5d of %2d %12d | %8.2f",
            i2t,
            trials,
            found,
            impossible.size(),
            falsely,
            slowest));
    return text.toString();
  }

  /** Share of the answers met within that many trials after the first. */
  public static double metWithin(List<Exam.Answer> possible, int trials) {
    long met = possible.stream().filter(a -> a.metAt() > 0 && a.metAt() <= trials).count();
    return possible.isEmpty() ? Double.NaN : met / (double) possible.size();
  }

  /** Stated chance against how often it came true; empty when no chance was stated. */
  public static String calibration(List<Exam.Answer> answers) {
    StringBuilder text = new StringBuilder();
    for (int bin = 0; bin + 1 < EDGES.length; bin++) {
      int many = 0;
      int met = 0;
      double stated = 0;
      for (Exam.Answer answer : answers) {
        for (Exam.Step step : answer.steps()) {
          if (step.chance() >= EDGES[bin] && step.chance() < EDGES[bin + 1]) {
            many++;
            met += step.met() ? 1 : 0;
            stated += step.chance();
          }
        }
      }
      if (many > 0) {
        text.append(
            String.format(
                Locale.ROOT,
                "  stated %.2f to %.2f: %4d proposals, mean stated %.2f, met %.2f%n",
                EDGES[bin],
                Math.min(1, EDGES[bin + 1]),
                many,
                stated / many,
                met / (double) many));
      }
    }
    return text.toString();
  }

  /** One line for each question that was not met at the first proposal, or failed. */
  public static String details(List<Exam.Answer> answers) {
    StringBuilder text = new StringBuilder();
    for (Exam.Answer answer : answers) {
      boolean good =
          answer.question().possible() ? answer.metAt() == 1 : answer.cannotMeetAt() == 1;
      if (good) {
        continue;
      }
      text.append("  ").append(answer.question().asset().sheet().id());
      text.append(answer.question().asset().meter().hasSpeed() ? " with speed" : "");
      text.append(answer.question().possible() ? "" : " (impossible)").append(':');
      for (Exam.Step step : answer.steps()) {
        text.append(
            String.format(
                Locale.ROOT,
                " [%d %s p %.2f %s%s]",
                step.number(),
                step.status(),
                step.chance(),
                step.met() ? String.format(Locale.ROOT, "met %+.3f", step.worst()) : missed(step),
                step.failure().isEmpty()
                    ? ""
                    : " " + step.failure().lines().findFirst().orElse("")));
      }
      text.append('\n');
    }
    return text.toString();
  }

  private static String missed(Exam.Step step) {
    if (step.worst() >= 9) {
      return "never reached full speed, or no figure";
    }
    StringBuilder text = new StringBuilder("missed");
    step.missed()
        .forEach(
            (figure, excess) ->
                text.append(String.format(Locale.ROOT, " %s by %.3f", figure, excess)));
    return text.toString();
  }
}
