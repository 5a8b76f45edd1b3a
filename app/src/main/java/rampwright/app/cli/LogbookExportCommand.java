package rampwright.app.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import rampwright.acquisition.file.AtomicFile;
import rampwright.app.json.ResultJson;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.UsageProblem;

/** {@code logbook export}. */
@CommandLine.Command(
    name = "export",
    header = "Write the starts in force as CSV, in the form that import reads.",
    description = "")
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
    String csv = services().exportStarts().csv(logbook.value());
    if (target == null) {
      screen().raw(SafeText.of(csv));
      return ExitCode.DONE;
    }
    try {
      AtomicFile.write(target, csv.getBytes(StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw InputProblem.of(e, target);
    }
    if (isJson()) {
      screen().raw(ResultJson.files(List.of(target.toString())));
    } else {
      screen().line(target.toString());
    }
    return ExitCode.DONE;
  }
}
