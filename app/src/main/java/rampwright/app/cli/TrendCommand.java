package rampwright.app.cli;

import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rampwright.app.json.TrendJson;
import rampwright.app.trend.AssetTrend;
import rampwright.app.usecase.AskTrend;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.RaiseAlerts;
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
      "  rampwright trend --all --page fleet.html         ranking and charts for a browser",
      "  rampwright trend --all --alerts alerts.jsonl     unattended: exit code 3 while one stands unseen",
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

  @Option(
      names = "--zone",
      paramLabel = "ZONE",
      description = "Show days of this time zone, such as +05:45, instead of the assets'.")
  private @Nullable String zone;

  @Option(
      names = "--page",
      paramLabel = "FILE",
      description = "One page of HTML with ranking and charts, for any browser, without network.")
  private @Nullable Path page;

  @Option(names = "--plain", description = "Courses in plain signs, for terminals without blocks.")
  private boolean plain;

  @Mixin private final AlertOptions alerts = new AlertOptions();
  @Mixin private final LogbookOption logbook = new LogbookOption();

  TrendCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() throws InputProblem, UsageProblem, InterruptedException {
    if (all && !assets.isEmpty()) {
      throw new UsageProblem("--all and a named asset exclude each other; give one");
    }
    alerts.check();
    List<AssetTrend> trends =
        services()
            .askTrend()
            .run(new AskTrend.Question(assets, figures, limits, zone()), logbook.value());
    services().tellDefinitions().run(assets, logbook.value()).forEach(screen()::say);
    if (!alerts.isOn()) {
      print(trends, null);
      page(trends);
      return ExitCode.DONE;
    }
    RaiseAlerts.Outcome outcome =
        services()
            .raiseAlerts()
            .run(
                trends, alerts.within(), alerts.tellers(services().environment()), logbook.value());
    print(trends, outcome);
    page(trends);
    outcome.troubles().forEach(screen()::say);
    return !outcome.troubles().isEmpty()
        ? ExitCode.DATA
        : outcome.needsEyes() ? ExitCode.MISSED : ExitCode.DONE;
  }

  private void print(List<AssetTrend> trends, RaiseAlerts.@Nullable Outcome outcome) {
    if (isJson()) {
      screen().raw(TrendJson.trends(trends, outcome == null ? null : outcome.standing()));
      return;
    }
    TrendText text = new TrendText(screen(), SparkText.of(plain, services().environment()));
    if (outcome == null) {
      text.print(trends, !all && assets.size() == 1);
    } else {
      text.alerts(outcome);
    }
  }

  private void page(List<AssetTrend> trends)
      throws InputProblem, UsageProblem, InterruptedException {
    Path target = page;
    if (target != null) {
      services().writeFleetPage().run(trends, target, zone(), logbook.value());
      screen().say("page written: " + target);
    }
  }

  private @Nullable ZoneId zone() throws UsageProblem {
    String given = zone;
    try {
      return given == null ? null : ZoneId.of(given);
    } catch (DateTimeException unknown) {
      throw new UsageProblem(
          "--zone "
              + given
              + ": is no time zone; write one such as UTC, +05:45 or a name of the zone tables");
    }
  }
}
