package rampwright.app.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine;
import picocli.CommandLine.Option;
import rampwright.app.json.ResultJson;
import rampwright.app.result.Batch;
import rampwright.app.result.Entry;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.RunDemo;
import rampwright.app.usecase.UsageProblem;

/** {@code demo}: the main job on the samples that come with the program. */
@CommandLine.Command(
    name = "demo",
    header = "Run the main job on the samples that come with the program.",
    description = {
      "",
      "Copies invented sample assets into a folder, analyses their trials, holds them against their"
          + " envelopes, draws each and makes the commissioning record of the first. Needs no network. The trials are good and bad on purpose; the"
          + " exit code only says whether the demo ran.",
      ""
    },
    footer = {"", "Example:", "  rampwright demo --into try-it"})
final class DemoCommand extends Command {
  @Option(
      names = "--into",
      paramLabel = "FOLDER",
      description = "Where to leave everything. Left out: rampwright-demo.")
  private Path into = Path.of("rampwright-demo");

  DemoCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() throws InputProblem, UsageProblem, InterruptedException {
    List<RunDemo.Shown> shown = services().runDemo().run(into, new ProgressLine(screen()));
    List<Entry> entries = new ArrayList<>();
    for (RunDemo.Shown asset : shown) {
      entries.addAll(asset.batch().entries());
    }
    Batch all = new Batch(entries, false);
    if (isJson()) {
      screen().raw(ResultJson.batch(all, false));
      return exit(all);
    }
    for (RunDemo.Shown asset : shown) {
      screen().line("== " + asset.folder());
      AnalyzeCommand.show(screen(), asset.batch(), false, false);
      asset.pictures().forEach(picture -> screen().line("chart: " + picture));
      if (asset.record() != null) {
        screen().line("record: " + asset.record());
      }
      screen().line("");
    }
    screen().line("Everything is left in " + into.toAbsolutePath() + ". Go on with:");
    if (!shown.isEmpty()) {
      screen().line("  rampwright compare " + shown.get(0).folder());
      screen().line("  rampwright ready " + shown.get(0).folder() + " --chart run-up.png");
      screen().line("  rampwright heat " + shown.get(0).folder() + " --chart heat.png");
      screen().line("  rampwright report " + shown.get(0).folder() + " --pdf");
    }
    screen().flush();
    return exit(all);
  }

  private static int exit(Batch all) {
    return all.failures().isEmpty() ? ExitCode.DONE : ExitCode.DATA;
  }
}
