package rampwright.app.trend;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;

/**
 * Patterns of figures that move together, to where a person would look first. Offered with what
 * speaks for and against it; never a diagnosis.
 */
public final class Leads {
  /** Most that are offered. */
  private static final int MOST = 2;

  /** What contradicts counts for more than what agrees. */
  private static final int AGAINST = 2;

  private Leads() {}

  private record Scored(Pattern pattern, int score) {}

  /** Of one asset's figures; nothing where none is said to have changed. */
  public static List<Lead> of(List<TrendQuestion> questions, List<FigureTrend> trends) {
    return Shift.together(questions, trends).map(Leads::of).orElse(List.of());
  }

  private static List<Lead> of(Shift.Together together) {
    Shift led = together.shifts().get(together.led().figure());
    if (led == null) {
      return List.of();
    }
    double leadingPct = Math.abs(led.pct());
    List<Scored> offered = new ArrayList<>();
    for (Pattern pattern : Pattern.ALL) {
      boolean whole =
          pattern.must().stream()
              .allMatch(clause -> clause.says(together.shifts(), leadingPct) > 0);
      if (whole) {
        int score = pattern.must().size();
        for (Clause hint : pattern.hints()) {
          int says = hint.says(together.shifts(), leadingPct);
          score += says < 0 ? AGAINST * says : says;
        }
        offered.add(new Scored(pattern, score));
      }
    }
    offered.sort(Comparator.comparingInt((Scored s) -> -s.score()));
    int best = offered.isEmpty() ? 0 : offered.get(0).score();
    return offered.stream()
        .filter(scored -> scored.score() > 0 && scored.score() >= best - 1)
        .limit(MOST)
        .map(scored -> lead(scored.pattern(), together, leadingPct))
        .toList();
  }

  private static Lead lead(Pattern pattern, Shift.Together together, double leadingPct) {
    Map<String, Shift> shifts = together.shifts();
    List<String> evidence = new ArrayList<>();
    List<String> against = new ArrayList<>();
    List<String> missing = new ArrayList<>();
    List<Clause> clauses = new ArrayList<>(pattern.must());
    clauses.addAll(pattern.hints());
    for (Clause clause : clauses) {
      int says = clause.says(shifts, leadingPct);
      if (!shifts.containsKey(clause.figure())) {
        missing.add(clause.figure());
      } else if (says != 0) {
        clause.words(shifts).ifPresent((says > 0 ? evidence : against)::add);
      }
    }
    return new Lead(
        pattern.key(),
        pattern.look(),
        together.led().since().orElseThrow(),
        evidence,
        against,
        missing);
  }
}
