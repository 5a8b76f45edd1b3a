package rampwright.app.cli;

import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import rampwright.app.json.ResultJson;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.UsageProblem;

/** {@code logbook export}. */
@CommandLine.Command(
    name = "export",
    header = "Write the starts in force as CSV, in the form that import reads, or as Parquet.",
    description = {
      "",
      "A file named *.parquet is written as Parquet, with the uncertainties and versions besides.",
      ""
    })
final class LogbookExportCommand extends Command {
  @Option(
      names = {"-o", "--output"},
      paramLabel = "FILE",
      description = "Where to; default: standard output.")
  private @Nullable Path output;

  @Mixin private final LogbookOption logbook = new LogbookOption();

  LogbookExportCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() throws InputProblem, UsageProblem, InterruptedException {
    Path target = output;
    if (isJson() && target == null) {
      throw new UsageProblem("--json needs a file for the table; add -o starts.csv");
    }
    if (target == null) {
      screen().raw(SafeText.of(services().exportStarts().csv(logbook.value())));
      return ExitCode.DONE;
    }
    services().exportStarts().file(logbook.value(), target);
    if (isJson()) {
      screen().raw(ResultJson.files(List.of(target.toString())));
    } else {
      screen().line(target.toString());
    }
    return ExitCode.DONE;
  }
}
