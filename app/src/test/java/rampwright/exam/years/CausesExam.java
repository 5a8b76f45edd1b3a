package rampwright.exam.years;

import java.io.PrintStream;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import java.util.stream.IntStream;
import rampwright.app.trend.FigureTrend;
import rampwright.app.trend.Lead;
import rampwright.app.trend.Leads;
import rampwright.app.trend.TrendQuestion;
import rampwright.app.trend.TrendState;
import rampwright.app.trend.Trends;
import rampwright.exam.plant.AssetGenerator;

/**
 * How often the leads send a person to the right place: simulated years of plants in which one
 * known thing changes, asked at the end. Right: the first lead names it; second: the second does;
 * wrong: leads are offered and none names it; silent: none is offered.
 */
public final class CausesExam {
  private final int assets;
  private final long seed;

  CausesExam(int assets, long seed) {
    this.assets = assets;
    this.seed = seed;
  }

  /** Arguments: {@code assets seed}. */
  public static void main(String[] args) {
    CausesExam exam =
        new CausesExam(
            args.length > 0 ? Integer.parseInt(args[0]) : 40,
            args.length > 1 ? Long.parseLong(args[1]) : 1);
    PrintStream out = System.out;
    out.println(
        String.format(
            Locale.ROOT,
            "%-13s %6s %6s %6s %6s %6s",
            "cause",
            "asked",
            "right",
            "second",
            "silent",
            "wrong"));
    int[] all = new int[4];
    for (Cause cause : Cause.values()) {
      int[] counts = exam.ask(cause);
      out.println(line(cause.name(), counts));
      if (cause != Cause.NOTHING) {
        Arrays.setAll(all, i -> all[i] + counts[i]);
      }
    }
    out.println(line("all causes", all));
  }

  private static String line(String name, int... counts) {
    return String.format(
        Locale.ROOT,
        "%-13s %6d %6d %6d %6d %6d",
        name.toLowerCase(Locale.ROOT).replace('_', ' '),
        Arrays.stream(counts).sum(),
        counts[0],
        counts[1],
        counts[2],
        counts[3]);
  }

  /** Right, second, silent, wrong. */
  int[] ask(Cause cause) {
    AssetGenerator generator = new AssetGenerator(seed);
    int[] counts = new int[4];
    IntStream.range(0, assets)
        .parallel()
        .mapToObj(
            a -> {
              Random chance = Watchers.chance(seed, 40 + cause.ordinal(), a);
              return PlantYears.of(generator.asset(a), cause, chance)
                  .map(questions -> verdict(cause, questions));
            })
        .toList()
        .forEach(verdict -> verdict.ifPresent(v -> counts[v]++));
    return counts;
  }

  private static int verdict(Cause cause, List<TrendQuestion> questions) {
    List<FigureTrend> trends = questions.stream().map(Trends::of).toList();
    List<Lead> leads = Leads.of(questions, trends);
    if (Boolean.getBoolean("exam.show")) {
      show(cause, trends, leads);
    }
    if (leads.isEmpty()) {
      return 2;
    }
    Optional<Integer> place =
        IntStream.range(0, leads.size())
            .filter(i -> cause.isNamedBy(leads.get(i).key()))
            .boxed()
            .findFirst();
    return place.orElse(3);
  }

  private static void show(Cause cause, List<FigureTrend> trends, List<Lead> leads) {
    StringBuilder text = new StringBuilder(cause.name());
    for (FigureTrend trend : trends) {
      if (trend.state() == TrendState.STEP || trend.state() == TrendState.DRIFT) {
        text.append(' ').append(trend.figure()).append(' ').append(trend.state().word());
        trend.step().ifPresent(s -> text.append(Math.round(s.sizePct())).append('%'));
      }
    }
    for (Lead lead : leads) {
      text.append("\n    ").append(lead.key()).append(" for ").append(lead.evidence());
      text.append(" against ").append(lead.against());
    }
    System.out.println(text);
  }
}
