package rampwright.app.cli;

import picocli.CommandLine;
import rampwright.app.usecase.ResultSchema;

/** {@code schema}: the JSON schema of results. */
@CommandLine.Command(
    name = "schema",
    header = "Print the JSON schema of what --json prints and figures.json holds.",
    description = {"", "JSON Schema, draft 2020-12. With --json the same.", ""},
    footer = {"", "Example:", "  rampwright schema > result.schema.json"})
final class SchemaCommand extends Command {
  SchemaCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() {
    screen().raw(new ResultSchema().run());
    return ExitCode.DONE;
  }
}
