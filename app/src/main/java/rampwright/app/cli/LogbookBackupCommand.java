package rampwright.app.cli;

import java.nio.file.Path;
import java.util.List;
import picocli.CommandLine;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import rampwright.app.json.ResultJson;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.UsageProblem;

/** {@code logbook backup}. */
@CommandLine.Command(
    name = "backup",
    header = "Copy a logbook's file while it is in use.",
    description = "A shared logbook is backed up with the database's own tools.")
final class LogbookBackupCommand extends Command {
  @Parameters(paramLabel = "FILE", description = "New file for the copy.")
  private Path target = Path.of("");

  @Mixin private final LogbookOption logbook = new LogbookOption();

  LogbookBackupCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() throws InputProblem, UsageProblem, InterruptedException {
    services().tendLogbook().backup(logbook.value(), target);
    if (isJson()) {
      screen().raw(ResultJson.files(List.of(target.toString())));
    } else {
      screen().line(target.toString());
    }
    return ExitCode.DONE;
  }
}
