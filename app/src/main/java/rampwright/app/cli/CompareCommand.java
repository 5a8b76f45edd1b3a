package rampwright.app.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rampwright.app.envelope.Verdict;
import rampwright.app.json.ResultJson;
import rampwright.app.result.Batch;
import rampwright.app.result.Comparison;
import rampwright.app.result.Entry;
import rampwright.app.result.NotedTrial;
import rampwright.app.result.TrialResult;
import rampwright.app.usecase.ChartTrials;
import rampwright.app.usecase.CompareTraces;
import rampwright.app.usecase.InputChoice;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.UsageProblem;

/** {@code compare}: trials against their envelope, or two traces side by side. */
@CommandLine.Command(
    name = "compare",
    header = "Hold trials against the envelope, or set two traces side by side.",
    description = {
      "",
      "An asset folder, or a trace with --asset: every limit and corridor with its margin.",
      "Two traces: figure by figure, B - A, and whether the difference exceeds its uncertainty; where"
          + " they have an envelope, its verdict on both counts for the exit code.",
      ""
    },
    footer = {
      "",
      "Examples:",
      "  rampwright compare pump/                             all trials against the envelope",
      "  rampwright compare trace.csv --asset pump/           one trial",
      "  rampwright compare before.csv after.csv --chart d.png   side by side"
    })
final class CompareCommand extends Command {
  @Parameters(arity = "1..*", paramLabel = "TRACE|FOLDER", description = "What to compare.")
  private List<Path> named = new ArrayList<>();

  @Mixin private final ReadingOptions reading = new ReadingOptions();

  @Option(
      names = "--chart",
      paramLabel = "FILE",
      description = "Two traces: draw both and their difference (.png or .svg).")
  private @Nullable Path chart;

  @Mixin private final SizeOption size = new SizeOption();

  CompareCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() throws InputProblem, UsageProblem, InterruptedException {
    InputChoice choice = reading.choice(Map.of());
    if (CompareTraces.isPair(named)) {
      return pair(choice);
    }
    if (chart != null) {
      throw new UsageProblem("--chart draws two traces; for one trial use the command chart");
    }
    Batch batch = services().compareTrials().run(named, choice, new ProgressLine(screen()));
    if (isJson()) {
      screen().raw(ResultJson.batch(batch, true, HeatLine.account(screen(), services(), named)));
      batch.failures().forEach(failed -> screen().say(failed.error()));
    } else {
      print(batch);
      HeatLine.print(screen(), services(), named);
    }
    return ExitCode.of(batch.standing());
  }

  private Integer pair(InputChoice choice) throws InputProblem, UsageProblem {
    Path target = chart;
    if (target != null) {
      ChartTrials.checkEnding(target);
    }
    Comparison comparison = services().compareTraces().run(named, choice, target, size.value());
    Batch both = new Batch(List.of(comparison.a(), comparison.b()), false);
    if (isJson()) {
      screen().raw(ResultJson.comparison(comparison));
    } else {
      ComparisonText.print(screen(), comparison);
      verdicts(comparison.a(), "Verdict on A");
      verdicts(comparison.b(), "Verdict on B");
      if (target != null) {
        screen().line("chart: " + target);
      }
      screen().flush();
    }
    return ExitCode.of(both.standing());
  }

  private void print(Batch batch) {
    for (Entry entry : batch.entries()) {
      if (entry instanceof TrialResult result) {
        screen().line(result.file());
        verdicts(result, "Verdict");
        if (result.verdicts().isEmpty()) {
          screen().line("  not assessable: the trace shows no start");
        }
      } else if (entry instanceof NotedTrial noted && noted.verdict() != null) {
        screen().line(noted.file());
        VerdictText.print(screen(), "Noted by hand, not measured", noted.verdict());
      }
      screen().line("");
    }
    if (batch.entries().size() > 1) {
      BatchText.print(screen(), batch);
    } else {
      batch.failures().forEach(failed -> screen().say(failed.error()));
    }
    screen().flush();
  }

  private void verdicts(TrialResult result, String title) {
    List<Verdict> verdicts = result.verdicts();
    for (int i = 0; i < verdicts.size(); i++) {
      String which = verdicts.size() == 1 ? "" : " on start " + (i + 1);
      VerdictText.print(screen(), title + which, verdicts.get(i));
    }
  }
}
