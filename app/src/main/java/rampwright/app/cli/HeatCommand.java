package rampwright.app.cli;

import java.nio.file.Path;
import java.time.Instant;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rampwright.app.json.HeatJson;
import rampwright.app.result.HeatResult;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.KeepHeat;
import rampwright.app.usecase.NotedStart;
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
      "  rampwright heat pump/ --cold-at 2026-03-14T07:30:00Z --by \"A. Fitter\"",
      "  rampwright heat pump/ --note-start 2026-03-14T11:05+01:00 --lasted 9 --by \"A. Fitter\"",
      "  rampwright heat pump/ --note-start unknown --by \"A. Fitter\""
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

  @Option(
      names = "--note-start",
      paramLabel = "TIME",
      converter = StartTime.Converter.class,
      description =
          "Note a start nobody recorded: when it began, or unknown; needs --by. What is not told is"
              + " taken at the worst.")
  private @Nullable StartTime noteStart;

  @Option(names = "--lasted", paramLabel = "SECONDS", description = "How long that start took.")
  private @Nullable Double lasted;

  @Option(
      names = "--current-ratio",
      paramLabel = "X",
      description = "Its current over the motor's rated current, on average.")
  private @Nullable Double currentRatio;

  @Option(
      names = "--stopped-at",
      paramLabel = "TIME",
      converter = InstantConverter.class,
      description = "When the motor was stopped after it. Left out: it ran on.")
  private @Nullable Instant stoppedAt;

  @Option(
      names = "--clock-right",
      description =
          "Note that date and time of this computer are right, where nothing else says that a time"
              + " has passed; needs --by.")
  private boolean clockRight;

  @Option(names = "--by", paramLabel = "NAME", description = "Who says so.")
  private @Nullable String by;

  @Option(
      names = "--chart",
      paramLabel = "FILE",
      description = "Draw the levels against time with the coming wait (.png or .svg).")
  private @Nullable Path chart;

  @Mixin private final SizeOption size = new SizeOption();

  @Option(names = "--sources", description = "Show the source of each rule.")
  private boolean sources;

  HeatCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() throws InputProblem, UsageProblem {
    HeatResult result = account(services().keepHeat());
    Path target = chart;
    if (target != null) {
      services().chartHeat().run(result, target, size.value());
    }
    if (isJson()) {
      screen().raw(HeatJson.account(result));
    } else {
      HeatText.print(screen(), result, sources);
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
    int words = (cold != null ? 1 : 0) + (noteStart != null ? 1 : 0) + (clockRight ? 1 : 0);
    if (words + (moment != null ? 1 : 0) > 1) {
      throw new UsageProblem(
          "--at, --cold-at, --note-start and --clock-right exclude each other; give one");
    }
    if (noteStart == null && (lasted != null || currentRatio != null || stoppedAt != null)) {
      throw new UsageProblem("--lasted, --current-ratio and --stopped-at go with --note-start");
    }
    String name = by;
    if (words == 0) {
      if (name != null) {
        throw new UsageProblem("--by goes with --cold-at, --note-start or --clock-right");
      }
      return moment == null ? keep.now(folder) : keep.at(folder, moment);
    }
    if (name == null) {
      throw new UsageProblem("needs --by NAME: it is a person's word");
    }
    StartTime start = noteStart;
    if (start != null) {
      return keep.noteStart(
          folder, new NotedStart(name, start.at(), lasted, currentRatio, stoppedAt));
    }
    return cold != null ? keep.noteCold(folder, cold, name) : keep.clockRight(folder, name);
  }
}
