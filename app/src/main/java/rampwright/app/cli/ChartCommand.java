package rampwright.app.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import picocli.CommandLine;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rampwright.app.json.ResultJson;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.UsageProblem;

/** {@code chart}: pictures of trials. */
@CommandLine.Command(
    name = "chart",
    header = "Draw a trial, or several over each other aligned at inception.",
    description = {
      "",
      "One trial shows its trace with a mark for each instant, the envelope's corridors, the dip, and"
          + " the figures beside it.",
      ""
    },
    footer = {
      "",
      "Examples:",
      "  rampwright chart trace.csv --asset pump/ -o trial.png",
      "  rampwright chart pump/ -o all.svg --size 1200x700"
    })
final class ChartCommand extends Command {
  @Parameters(arity = "1..*", paramLabel = "TRACE|FOLDER", description = "What to draw.")
  private List<Path> named = new ArrayList<>();

  @Mixin private final ReadingOptions reading = new ReadingOptions();

  @Option(
      names = {"-o", "--out"},
      paramLabel = "FILE",
      description = "The picture, .png or .svg. Left out: chart.png.")
  private Path target = Path.of("chart.png");

  @Mixin private final SizeOption size = new SizeOption();

  @Option(names = "--dip", description = "Draw the line voltages around the start of one trial.")
  private boolean dip;

  ChartCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() throws InputProblem, UsageProblem {
    services().chartTrials().run(named, reading.choice(Map.of()), target, size.value(), dip);
    if (isJson()) {
      screen().raw(ResultJson.files(List.of(target.toString())));
    } else {
      screen().line("chart: " + target);
      screen().flush();
    }
    return ExitCode.DONE;
  }
}
