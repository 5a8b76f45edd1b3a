package rampwright.app.cli;

import java.nio.file.Path;
import picocli.CommandLine;
import picocli.CommandLine.Option;
import rampwright.app.usecase.AdviseAsset;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.UsageProblem;

/** {@code predict}: what given settings would do. */
@CommandLine.Command(
    name = "predict",
    header = "Say what given settings would do: figures with their ranges.",
    description = {
      "",
      "The model is the one of advise: fitted to the trials in the folder, or the nameplate's.",
      ""
    },
    footer = {
      "",
      "Example:",
      "  rampwright predict pump/ --settings wanted.toml --chart wanted.png"
    })
final class PredictCommand extends AdviceCommand {
  @Option(
      names = "--settings",
      paramLabel = "FILE",
      required = true,
      description = "The settings, as in a trial's settings.toml.")
  private Path settings = Path.of("");

  PredictCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() throws InputProblem, UsageProblem {
    AdviseAsset.Advised predicted = services().adviseAsset().predict(folder(), settings);
    answer(predicted, AdviceText::prediction);
    if (!isJson()) {
      HeatLine.print(screen(), services(), folder(), predicted);
    }
    return ExitCode.DONE;
  }
}
