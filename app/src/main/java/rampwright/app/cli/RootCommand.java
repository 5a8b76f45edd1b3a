package rampwright.app.cli;

import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** The program's name, by itself. */
@CommandLine.Command(
    name = "rampwright",
    header = "Measures, judges and advises on starts and stops of induction motors.",
    description = {
      "",
      "Reads the trace of a start (one current is enough), takes its figures with their uncertainty,"
          + " and holds them against the target. It measures and advises; it never writes to a starter.",
      ""
    },
    synopsisSubcommandLabel = "COMMAND",
    commandListHeading = "%nCommands:%n",
    exitCodeListHeading = "%nExit codes:%n",
    footer = {
      "",
      "Results go to standard output, talk to standard error. Every command has --help and --json.",
      "Begin with: rampwright demo"
    })
final class RootCommand implements Runnable {
  @Option(
      names = {"-h", "--help"},
      usageHelp = true,
      description = "Show this help and exit.")
  @SuppressWarnings("unused") // set and read by the command-line library
  private boolean help;

  @Option(
      names = {"-V", "--version"},
      versionHelp = true,
      description = "Show the version and exit.")
  @SuppressWarnings("unused") // set and read by the command-line library
  private boolean version;

  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public void run() {
    throw new ParameterException(
        spec.commandLine(), "no command was given; see rampwright --help, or begin with: demo");
  }
}
