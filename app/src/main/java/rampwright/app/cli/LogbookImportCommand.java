package rampwright.app.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import picocli.CommandLine;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import rampwright.app.json.LogbookJson;
import rampwright.app.logbook.Imported;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.UsageProblem;

/** {@code logbook import}. */
@CommandLine.Command(
    name = "import",
    header = "Enter asset folders, trial folders, traces, or tables of figures.",
    description = {
      "",
      "A table is a CSV file with the columns asset,time,settings and then figure keys; time is ISO"
          + " 8601, settings any label that changes when the settings do. What is already there is"
          + " passed over; a start of the same asset and time with other content is entered as a"
          + " correction. What is wrong is left out and named, and the exit code is 6.",
      ""
    })
final class LogbookImportCommand extends Command {
  @Parameters(arity = "1..*", paramLabel = "PATH", description = "What to enter.")
  private List<Path> named = new ArrayList<>();

  @Mixin private final ReadingOptions reading = new ReadingOptions();
  @Mixin private final LogbookOption logbook = new LogbookOption();

  LogbookImportCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() throws InputProblem, UsageProblem, InterruptedException {
    Imported imported =
        services()
            .importStarts()
            .run(named, reading.choice(Map.of()), logbook.value(), new ProgressLine(screen()));
    if (isJson()) {
      screen().raw(LogbookJson.imported(imported));
    } else {
      screen()
          .line(
              imported.added()
                  + " entered ("
                  + imported.corrected()
                  + " as corrections), "
                  + imported.known()
                  + " known already, in "
                  + services().logbookUse().where(logbook.value()));
    }
    imported.remarks().forEach(screen()::say);
    imported.rejected().forEach(line -> screen().say("left out: " + line));
    return imported.rejected().isEmpty() ? ExitCode.DONE : ExitCode.DATA;
  }
}
