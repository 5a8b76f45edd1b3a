package rampwright.app.cli;

import picocli.CommandLine;
import rampwright.app.advice.Advice;
import rampwright.app.usecase.AdviseAsset;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.UsageProblem;

/** {@code advise}: what to set next. */
@CommandLine.Command(
    name = "advise",
    header = "Say what to set next, what will then happen, and how likely every limit is met.",
    description = {
      "",
      "A model of the motor, its load, supply and starter is fitted to the trials in the folder;"
          + " settings are searched within the starter's ranges. Before the first trial the advice rests"
          + " on the nameplate. Where no settings can meet the envelope, that is said with the limit"
          + " that stands in the way (exit code 3).",
      ""
    },
    footer = {
      "",
      "Examples:",
      "  rampwright advise pump/",
      "  rampwright advise pump/ --chart next.png --size 1200x700",
      "  rampwright advise pump/ --json"
    })
final class AdviseCommand extends AdviceCommand {
  AdviseCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() throws InputProblem, UsageProblem {
    AdviseAsset.Advised advised = services().adviseAsset().advise(folder());
    answer(advised, AdviceText::advice);
    if (!isJson()) {
      HeatLine.print(screen(), services(), folder(), advised);
    }
    return advised.advice().status() == Advice.Status.CANNOT_MEET ? ExitCode.MISSED : ExitCode.DONE;
  }
}
