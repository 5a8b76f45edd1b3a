package rampwright.app.cli;

import java.util.function.Supplier;
import picocli.AutoComplete;
import picocli.CommandLine;
import rampwright.app.json.ResultJson;

/** {@code completion}: a script that completes commands and options in a shell. */
@CommandLine.Command(
    name = "completion",
    header = "Print a script for bash or zsh that completes commands and options.",
    description = {"", "With --json the script as a JSON text.", ""},
    footer = {"", "Example:", "  source <(rampwright completion)"})
final class CompletionCommand extends Command {
  private final Supplier<CommandLine> whole;

  CompletionCommand(Screen screen, Services services, Supplier<CommandLine> whole) {
    super(screen, services);
    this.whole = whole;
  }

  @Override
  public Integer call() {
    String script = AutoComplete.bash("rampwright", whole.get());
    screen().raw(isJson() ? ResultJson.script(script) : script);
    return ExitCode.DONE;
  }
}
