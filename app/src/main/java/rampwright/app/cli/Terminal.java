package rampwright.app.cli;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Supplier;
import picocli.CommandLine;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Model.CommandSpec;

/** The command line as a whole: words in, exit code out. */
public final class Terminal {
  private static final int HELP_WIDTH = 100;

  private final Screen screen;
  private final Services services;

  public Terminal(Screen screen, Services services) {
    this.screen = screen;
    this.services = services;
  }

  /** Runs one command and says how it ended; see {@link ExitCode}. */
  public int run(String... args) {
    FailureHandler failures = new FailureHandler(screen);
    try {
      int exit = commandLine(args.length == 0 ? "" : args[0], failures).execute(args);
      screen.flush();
      return exit;
    } catch (OutOfMemoryError | StackOverflowError | LinkageError | AssertionError e) {
      return failures.handleError(e);
    }
  }

  /**
   * The commands. Building them takes reflection on each, so of a command that is named only that
   * one is built.
   */
  private CommandLine commandLine(String first, FailureHandler failures) {
    CommandLine root = new CommandLine(new RootCommand());
    Map<String, Supplier<Object>> commands = commands(failures);
    Supplier<Object> named = commands.get(first);
    if (named == null) {
      commands.forEach((name, command) -> root.addSubcommand(name, command.get()));
    } else {
      root.addSubcommand(first, named.get());
    }
    CommandSpec spec = root.getCommandSpec();
    spec.version("rampwright " + services.version());
    spec.usageMessage().exitCodeList(exitCodes());
    root.getSubcommands()
        .values()
        .forEach(
            command -> {
              command.getCommandSpec().usageMessage().exitCodeListHeading("%nExit codes:%n");
              command.getCommandSpec().usageMessage().exitCodeList(exitCodes());
            });
    root.setColorScheme(CommandLine.Help.defaultColorScheme(Ansi.OFF));
    root.setUsageHelpWidth(HELP_WIDTH);
    root.setOut(screen.resultWriter());
    root.setErr(screen.talkWriter());
    root.setExecutionExceptionHandler(failures);
    root.setParameterExceptionHandler(failures);
    root.setExpandAtFiles(false);
    return root;
  }

  private Map<String, Supplier<Object>> commands(FailureHandler failures) {
    Map<String, Supplier<Object>> commands = new LinkedHashMap<>();
    commands.put("demo", () -> new DemoCommand(screen, services));
    commands.put("analyze", () -> new AnalyzeCommand(screen, services));
    commands.put("compare", () -> new CompareCommand(screen, services));
    commands.put("convert", () -> new ConvertCommand(screen, services));
    commands.put("chart", () -> new ChartCommand(screen, services));
    commands.put("advise", () -> new AdviseCommand(screen, services));
    commands.put("predict", () -> new PredictCommand(screen, services));
    commands.put("ready", () -> new ReadyCommand(screen, services));
    commands.put("heat", () -> new HeatCommand(screen, services));
    commands.put("report", () -> new ReportCommand(screen, services));
    commands.put("logbook", () -> LogbookCommand.of(screen, services));
    commands.put("trend", () -> new TrendCommand(screen, services));
    commands.put("probe", () -> new ProbeCommand(screen, services));
    commands.put("record", () -> new RecordCommand(screen, services));
    commands.put("watch", () -> new WatchCommand(screen, services));
    commands.put("bench", () -> new BenchCommand(screen, services));
    commands.put("schema", () -> new SchemaCommand(screen, services));
    commands.put(
        "completion",
        () -> new CompletionCommand(screen, services, () -> commandLine("", failures)));
    return commands;
  }

  private static Map<String, String> exitCodes() {
    Map<String, String> codes = new LinkedHashMap<>();
    for (String line : ExitCode.HELP) {
      int colon = line.indexOf(':');
      codes.put(line.substring(0, colon), line.substring(colon + 1));
    }
    return codes;
  }
}
