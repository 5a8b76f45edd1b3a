package rampwright.app.cli;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import picocli.CommandLine;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rampwright.app.json.TrendJson;
import rampwright.app.trend.AssetTrend;
import rampwright.app.usecase.AskTrend;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.UsageProblem;

/** {@code trend}: the same figures over the months. */
@CommandLine.Command(
    name = "trend",
    header =
        "Say which figures changed over the months, since when, by how much, how sure that is.",
    description = {
      "",
      "Only starts with the present settings are compared. The supply's voltage before the start, a"
          + " warm restart and the season are taken out first, as far as the starts tell their effect.",
      "A step or a drift is said where it explains the starts clearly better than scatter; where a"
          + " limit is known, the day a drift reaches it is given with its 5 to 95 %% range.",
      ""
    },
    footer = {
      "",
      "Examples:",
      "  rampwright trend --all                          every asset, surest and soonest first",
      "  rampwright trend P-1                            every figure of one asset",
      "  rampwright trend P-1 --figure start_time_s --limit start_time_s=12",
      "  rampwright trend --all --json"
    })
final class TrendCommand extends Command {
  @Parameters(arity = "0..*", paramLabel = "ASSET", description = "Ids of assets.")
  private List<String> assets = new ArrayList<>();

  @Option(names = "--all", description = "Every asset of the logbook.")
  private boolean all;

  @Option(
      names = "--figure",
      paramLabel = "KEY",
      description = "Only this figure; may be repeated.")
  private List<String> figures = new ArrayList<>();

  @Option(
      names = "--limit",
      paramLabel = "KEY=VALUE",
      description = "Upper limit of a figure, instead of the envelope's; may be repeated.")
  private Map<String, Double> limits = new LinkedHashMap<>();

  @Mixin private final LogbookOption logbook = new LogbookOption();

  TrendCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() throws InputProblem, UsageProblem, InterruptedException {
    if (all && !assets.isEmpty()) {
      throw new UsageProblem("--all and a named asset exclude each other; give one");
    }
    List<AssetTrend> trends =
        services().askTrend().run(new AskTrend.Question(assets, figures, limits), logbook.value());
    if (isJson()) {
      screen().raw(TrendJson.trends(trends));
    } else {
      new TrendText(screen()).print(trends, !all && assets.size() == 1);
    }
    services().tellDefinitions().run(assets, logbook.value()).forEach(screen()::say);
    return ExitCode.DONE;
  }
}
