package rampwright.app.cli;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rampwright.app.json.ReadyJson;
import rampwright.app.ready.EnergisingList;
import rampwright.app.ready.Readiness;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.TickList;
import rampwright.app.usecase.UsageProblem;

/** {@code ready}: checks before the first start. */
@CommandLine.Command(
    name = "ready",
    header = "Check an asset before its first start: ok, look or hold, line by line.",
    description = {
      "",
      "Nameplate, supply, starter, trip class; what the settings will do to this load: torque margin"
          + " along the run-up, start time, peak, dip, heat, how often; and what is not known. Exit code"
          + " 3 when a line says hold. --list keeps the checks before energising.",
      ""
    },
    footer = {
      "",
      "Examples:",
      "  rampwright ready pump/ --settings first.toml --chart run-up.png",
      "  rampwright ready pump/ --list",
      "  rampwright ready pump/ --tick 4 --by \"A. Fitter\" --note \"turned by hand\""
    })
final class ReadyCommand extends Command {
  @Parameters(arity = "1", paramLabel = "FOLDER", description = "An asset folder.")
  private Path folder = Path.of("");

  @Option(
      names = "--settings",
      paramLabel = "FILE",
      description =
          "The settings meant. Left out: settings.toml beside asset.toml, or the last trial's.")
  private @Nullable Path settings;

  @Option(
      names = "--chart",
      paramLabel = "FILE",
      description = "Draw torque of motor and load along the run-up (.png or .svg).")
  private @Nullable Path chart;

  @Mixin private final SizeOption size = new SizeOption();

  @Option(names = "--sources", description = "Show rule and source under each line.")
  private boolean sources;

  @Option(names = "--list", description = "Show the checks before energising.")
  private boolean list;

  @Option(names = "--tick", paramLabel = "N", description = "Tick check N; needs --by.")
  private @Nullable Integer tick;

  @Option(names = "--untick", paramLabel = "N", description = "Take the tick of check N back.")
  private @Nullable Integer untick;

  @Option(names = "--by", paramLabel = "NAME", description = "Who ticks.")
  private @Nullable String by;

  @Option(names = "--note", paramLabel = "TEXT", description = "A word kept with the tick.")
  private @Nullable String note;

  ReadyCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() throws InputProblem, UsageProblem {
    TickList ticks = services().tickList();
    Integer number = tick != null ? tick : untick;
    if (number != null) {
      if (tick != null && untick != null) {
        throw new UsageProblem("--tick and --untick exclude each other; give one");
      }
      String name = by;
      if (name == null) {
        throw new UsageProblem("--tick needs --by NAME: a tick is a person's word");
      }
      return shown(ticks, ticks.tick(folder, number, name, note, untick != null));
    }
    if (by != null || note != null) {
      throw new UsageProblem("--by and --note go with --tick N");
    }
    if (list) {
      return shown(ticks, ticks.show(folder));
    }
    Readiness readiness = services().checkReadiness().run(folder, settings);
    Path target = chart;
    if (target != null) {
      services().chartReadiness().run(readiness, target, size.value());
    }
    if (isJson()) {
      screen().raw(ReadyJson.readiness(readiness));
    } else {
      ReadyText.print(screen(), readiness, ticks.show(folder), sources);
      if (target != null) {
        screen().line("chart: " + target);
      }
    }
    screen().flush();
    return readiness.isHeld() ? ExitCode.MISSED : ExitCode.DONE;
  }

  private int shown(TickList ticks, EnergisingList after) {
    if (isJson()) {
      screen().raw(ReadyJson.list(after));
    } else {
      Path name = folder.toAbsolutePath().normalize().getFileName();
      ReadyText.list(
          screen(), name == null ? folder.toString() : name.toString(), ticks.site(folder), after);
    }
    screen().flush();
    return ExitCode.DONE;
  }
}
