package rampwright.app.cli;

import picocli.CommandLine.Option;

/** The option every command has. */
final class JsonOption {
  @Option(names = "--json", description = "Print the result as JSON for machines.")
  private boolean json;

  boolean isOn() {
    return json;
  }
}
