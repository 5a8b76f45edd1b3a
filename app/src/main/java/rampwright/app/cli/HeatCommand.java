package rampwright.app.cli;

import java.nio.file.Path;
import java.time.Instant;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rampwright.app.json.HeatJson;
import rampwright.app.result.HeatResult;
import rampwright.app.usecase.ChartSize;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.KeepHeat;
import rampwright.app.usecase.UsageProblem;

/** {@code heat}: may it start again, and if not, when. */
@CommandLine.Command(
    name = "heat",
    header = "Say how warm the motor circuit is and when the next start is allowed.",
    description = {
      "",
      "Reckons with the trials' own current traces: rotor, stator, starter, overload relay, starts an"
          + " hour and in succession; the strictest rules and is named. What is not known is assumed"
          + " hot and said. The account is kept in heat.toml in the asset folder.",
      ""
    },
    footer = {
      "",
      "Examples:",
      "  rampwright heat pump/",
      "  rampwright heat pump/ --chart heat.png",
      "  rampwright heat pump/ --at 2026-03-14T15:00:00Z",
      "  rampwright heat pump/ --cold-at 2026-03-14T07:30:00Z --by \"A. Fitter\""
    })
final class HeatCommand extends Command {
  @Parameters(arity = "1", paramLabel = "FOLDER", description = "An asset folder.")
  private Path folder = Path.of("");

  @Option(
      names = "--at",
      paramLabel = "TIME",
      converter = InstantConverter.class,
      description = "Ask about another moment; nothing is kept.")
  private @Nullable Instant at;

  @Option(
      names = "--cold-at",
      paramLabel = "TIME",
      converter = InstantConverter.class,
      description = "Note that the motor was at ambient temperature then; needs --by.")
  private @Nullable Instant coldAt;

  @Option(names = "--by", paramLabel = "NAME", description = "Who says so.")
  private @Nullable String by;

  @Option(
      names = "--chart",
      paramLabel = "FILE",
      description = "Draw the levels against time with the coming wait (.png or .svg).")
  private @Nullable Path chart;

  HeatCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() throws InputProblem, UsageProblem {
    HeatResult result = account(services().keepHeat());
    Path target = chart;
    if (target != null) {
      services().chartHeat().run(result, target, ChartSize.DEFAULT);
    }
    if (isJson()) {
      screen().raw(HeatJson.account(result));
    } else {
      HeatText.print(screen(), result);
      if (target != null) {
        screen().line("chart: " + target);
      }
    }
    screen().flush();
    return ExitCode.DONE;
  }

  private HeatResult account(KeepHeat keep) throws InputProblem, UsageProblem {
    Instant cold = coldAt;
    Instant moment = at;
    String name = by;
    if (cold != null) {
      if (name == null) {
        throw new UsageProblem("--cold-at needs --by NAME: who saw that the motor was cold");
      }
      if (moment != null) {
        throw new UsageProblem("--at and --cold-at exclude each other; give one");
      }
      return keep.noteCold(folder, cold, name);
    }
    if (name != null) {
      throw new UsageProblem("--by goes with --cold-at; give both or neither");
    }
    return moment == null ? keep.now(folder) : keep.at(folder, moment);
  }
}
