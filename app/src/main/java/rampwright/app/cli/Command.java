package rampwright.app.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import rampwright.app.usecase.UsageProblem;
import rampwright.app.wording.ValueText;

/** What all commands have in common. */
abstract class Command implements Callable<Integer> {
  @Mixin private final JsonOption json = new JsonOption();

  @Option(
      names = {"-h", "--help"},
      usageHelp = true,
      description = "Show this help and exit.")
  @SuppressWarnings("unused") // set and read by the command-line library
  private boolean help;

  private final Screen screen;
  private final Services services;

  Command(Screen screen, Services services) {
    this.screen = screen;
    this.services = services;
  }

  final Screen screen() {
    return screen;
  }

  final Services services() {
    return services;
  }

  /** Whether the result, and what goes wrong, is wanted as JSON. */
  final boolean isJson() {
    return json.isOn();
  }

  /** Refuses a number that is out of its range. */
  static void check(String option, double value, double least, double most) throws UsageProblem {
    if (!(value >= least && value <= most)) {
      throw new UsageProblem(
          option
              + " is a number from "
              + ValueText.value(least, null)
              + " to "
              + ValueText.value(most, null)
              + ", not "
              + ValueText.value(value, null));
    }
  }
}
