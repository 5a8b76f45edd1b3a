package rampwright.app.cli;

import java.nio.file.Path;
import picocli.CommandLine;
import picocli.CommandLine.Parameters;
import rampwright.acquisition.watch.WatchStatus;
import rampwright.app.json.DeviceJson;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.UsageProblem;
import rampwright.app.usecase.WatchPlant;

/** {@code watch}: every start of many assets, unattended. */
@CommandLine.Command(
    name = "watch",
    header = "Record every start of many assets, unattended.",
    description = {
      "",
      "Runs until it is told to stop (Ctrl-C, SIGTERM): in the foreground, or as a service with the"
          + " unit that comes with it. Every start becomes a trial with its figures in its asset"
          + " folder, and an entry in the logbook. How it stands is kept in a status file; with"
          + " --json it is printed at the end. It only reads devices.",
      ""
    },
    footer = {"", "Example:", "  rampwright watch plant/watch.toml"})
final class WatchCommand extends Command {
  /** Within what the service's unit allows (90 s). */
  private static final int LONGEST_END_S = 80;

  @Parameters(paramLabel = "FILE", description = "What is watched: assets and their channel maps.")
  private Path file = Path.of("");

  WatchCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() throws InputProblem, UsageProblem, InterruptedException {
    WatchPlant.Watch watch = services().watchPlant().prepare(file, line -> screen().say(line));
    StopSignal signal = new StopSignal(watch::stop, LONGEST_END_S);
    try {
      watch.run();
      WatchStatus last = watch.status();
      if (isJson() && last != null) {
        screen().raw(DeviceJson.status(last));
      }
    } finally {
      screen().flush();
      signal.finished();
    }
    return ExitCode.DONE;
  }
}
