package rampwright.app.cli;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rampwright.app.json.AdviceJson;
import rampwright.app.usecase.AdviseAsset;
import rampwright.app.usecase.ChartSize;
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
final class PredictCommand extends Command {
  @Parameters(arity = "1", paramLabel = "FOLDER", description = "An asset folder.")
  private Path folder = Path.of("");

  @Option(
      names = "--settings",
      paramLabel = "FILE",
      required = true,
      description = "The settings, as in a trial's settings.toml.")
  private Path settings = Path.of("");

  @Option(
      names = "--chart",
      paramLabel = "FILE",
      description = "Draw the predicted trial (.png or .svg).")
  private @Nullable Path chart;

  PredictCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() throws InputProblem, UsageProblem {
    AdviseAsset.Advised advised = services().adviseAsset().predict(folder, settings);
    Path target = chart;
    if (target != null) {
      services().chartPrediction().run(advised, target, ChartSize.DEFAULT);
    }
    if (isJson()) {
      screen()
          .raw(
              AdviceJson.advice(
                  advised.advice(), advised.present(), advised.used(), advised.leftOut()));
    } else {
      AdviceText.prediction(screen(), advised);
      if (target != null) {
        screen().line("chart: " + target);
      }
    }
    screen().flush();
    return ExitCode.DONE;
  }
}
