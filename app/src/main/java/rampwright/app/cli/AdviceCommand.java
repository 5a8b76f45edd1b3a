package rampwright.app.cli;

import java.nio.file.Path;
import java.util.function.BiConsumer;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rampwright.app.json.AdviceJson;
import rampwright.app.usecase.AdviseAsset;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.UsageProblem;

/** What the commands that ask the fitted model have in common. */
abstract class AdviceCommand extends Command {
  @Parameters(arity = "1", paramLabel = "FOLDER", description = "An asset folder.")
  private Path folder = Path.of("");

  @Option(
      names = "--chart",
      paramLabel = "FILE",
      description = "Draw the predicted trial (.png or .svg) with the last one behind it.")
  private @Nullable Path chart;

  @Mixin private final SizeOption size = new SizeOption();

  AdviceCommand(Screen screen, Services services) {
    super(screen, services);
  }

  final Path folder() {
    return folder;
  }

  /** Draws the picture where one is wanted and gives the answer, as JSON or in words. */
  final void answer(AdviseAsset.Advised advised, BiConsumer<Screen, AdviseAsset.Advised> words)
      throws InputProblem, UsageProblem {
    Path target = chart;
    if (target != null) {
      services().chartPrediction().run(advised, target, size.value());
    }
    if (isJson()) {
      screen()
          .raw(
              AdviceJson.advice(
                  advised.advice(),
                  advised.present(),
                  advised.used(),
                  advised.leftOut(),
                  advised.otherDip().orElse(null),
                  HeatLine.account(screen(), services(), folder, advised)));
    } else {
      words.accept(screen(), advised);
      if (target != null) {
        screen().line("chart: " + target);
      }
    }
    screen().flush();
  }
}
