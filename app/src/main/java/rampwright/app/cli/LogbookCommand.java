package rampwright.app.cli;

import picocli.CommandLine;
import rampwright.app.usecase.UsageProblem;

/** {@code logbook}: the store of starts. */
@CommandLine.Command(
    name = "logbook",
    header = "Keep starts for months: import, list, reanalyze, export, verify, backup, note.",
    description = {
      "",
      "Nothing in a logbook is ever changed: a correction is a new entry that names the old one.",
      ""
    },
    footer = {
      "",
      "Examples:",
      "  rampwright logbook import plant/               every trial of every asset folder",
      "  rampwright logbook import starts.csv           asset,time,settings, then figure keys",
      "  rampwright logbook note P-1 work \"bearing changed\" --by \"A. N.\"",
      "  rampwright logbook export > starts.csv",
      "  rampwright logbook backup copy.db"
    })
final class LogbookCommand extends Command {
  private LogbookCommand(Screen screen, Services services) {
    super(screen, services);
  }

  /** With the verbs below it. */
  static CommandLine of(Screen screen, Services services) {
    return new CommandLine(new LogbookCommand(screen, services))
        .addSubcommand(new LogbookImportCommand(screen, services))
        .addSubcommand(new LogbookListCommand(screen, services))
        .addSubcommand(new LogbookReanalyzeCommand(screen, services))
        .addSubcommand(new LogbookExportCommand(screen, services))
        .addSubcommand(new LogbookVerifyCommand(screen, services))
        .addSubcommand(new LogbookBackupCommand(screen, services))
        .addSubcommand(new LogbookNoteCommand(screen, services));
  }

  @Override
  public Integer call() throws UsageProblem {
    throw new UsageProblem(
        "say what to do with the logbook: import, list, reanalyze, export, verify, backup or note;"
            + " see: rampwright logbook --help");
  }
}
