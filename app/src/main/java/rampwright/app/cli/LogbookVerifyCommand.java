package rampwright.app.cli;

import picocli.CommandLine;
import picocli.CommandLine.Mixin;
import rampwright.app.json.LogbookJson;
import rampwright.app.logbook.Logbook;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.UsageProblem;

/** {@code logbook verify}. */
@CommandLine.Command(
    name = "verify",
    header = "Recompute the hash of every entry and file.",
    description = "Exit code 6 where one is not as it was entered.")
final class LogbookVerifyCommand extends Command {
  @Mixin private final LogbookOption logbook = new LogbookOption();

  LogbookVerifyCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() throws InputProblem, UsageProblem, InterruptedException {
    Logbook.Verified verified = services().tendLogbook().verify(logbook.value());
    if (isJson()) {
      screen().raw(LogbookJson.verified(verified));
    } else {
      screen()
          .line(
              verified.entries()
                  + " entries and "
                  + verified.files()
                  + " files looked at, "
                  + (verified.damaged().isEmpty()
                      ? "all as they were entered"
                      : verified.damaged().size() + " not as entered"));
      verified.damaged().forEach(screen()::line);
    }
    return verified.damaged().isEmpty() ? ExitCode.DONE : ExitCode.DATA;
  }
}
