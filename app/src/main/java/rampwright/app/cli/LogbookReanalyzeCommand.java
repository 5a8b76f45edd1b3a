package rampwright.app.cli;

import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import rampwright.app.json.LogbookJson;
import rampwright.app.logbook.Reanalyzed;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.UsageProblem;

/** {@code logbook reanalyze}. */
@CommandLine.Command(
    name = "reanalyze",
    header = "Take the figures of logged starts again, by this version's definitions.",
    description = {
      "",
      "The traces are those the logbook keeps; no folder is needed. A start with other figures is"
          + " entered anew and names its old entry; both stay (logbook list ASSET --history), and"
          + " the trend takes the newest. What was analysed by this version already is passed over.",
      ""
    })
final class LogbookReanalyzeCommand extends Command {
  @Parameters(arity = "0..*", paramLabel = "ASSET", description = "Ids of assets; none for all.")
  private List<String> assets = new ArrayList<>();

  @Mixin private final LogbookOption logbook = new LogbookOption();

  LogbookReanalyzeCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() throws InputProblem, UsageProblem, InterruptedException {
    Reanalyzed done =
        services().reanalyzeStarts().run(assets, logbook.value(), new ProgressLine(screen()));
    if (isJson()) {
      screen().raw(LogbookJson.reanalyzed(done));
    } else {
      screen()
          .line(
              done.trials()
                  + " traces analysed by definitions "
                  + done.definitions()
                  + ": "
                  + done.changed()
                  + " starts entered anew, "
                  + done.same()
                  + " as they were");
    }
    done.problems().forEach(line -> screen().say("left as it is: " + line));
    return done.problems().isEmpty() ? ExitCode.DONE : ExitCode.DATA;
  }
}
