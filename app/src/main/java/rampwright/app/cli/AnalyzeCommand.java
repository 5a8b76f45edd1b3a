package rampwright.app.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rampwright.acquisition.file.AtomicFile;
import rampwright.app.json.ResultJson;
import rampwright.app.result.Batch;
import rampwright.app.result.Entry;
import rampwright.app.result.FailedTrial;
import rampwright.app.result.NotedTrial;
import rampwright.app.result.TrialResult;
import rampwright.app.summary.SummaryTable;
import rampwright.app.usecase.AssetTable;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.UsageProblem;

/** {@code analyze}: traces to figures, findings and verdicts. */
@CommandLine.Command(
    name = "analyze",
    header = "Take the figures of traces and hold them against the asset's envelope.",
    description = {
      "",
      "Name trace files (CSV, COMTRADE), trial folders or asset folders. Of an asset folder all trials"
          + " are taken, and figures.json is written into each trial's folder.",
      "One trace prints everything; several print a line each. A file that cannot be read does not"
          + " stop the others.",
      ""
    },
    footer = {
      "",
      "Examples:",
      "  rampwright analyze trace.csv                    one current is enough",
      "  rampwright analyze trace.csv --asset pump/      ratios, heat, verdict",
      "  rampwright analyze pump/                        every trial of an asset",
      "  rampwright analyze *.csv --assets table.csv --csv > summary.csv",
      "  rampwright analyze trace.csv --how              each number with its window and rule"
    })
final class AnalyzeCommand extends Command {
  @Parameters(arity = "1..*", paramLabel = "TRACE|FOLDER", description = "What to analyse.")
  private List<Path> named = new ArrayList<>();

  @Mixin private final ReadingOptions reading = new ReadingOptions();

  @Option(
      names = "--assets",
      paramLabel = "TABLE.csv",
      description =
          "Table with the columns file,asset: names the asset of each of many loose files.")
  private @Nullable Path assets;

  @Option(names = "--csv", description = "Print the summary table as CSV.")
  private boolean csv;

  @Option(
      names = "--summary",
      paramLabel = "FILE",
      description = "Write the summary table as CSV to a file, besides what is printed.")
  private @Nullable Path summary;

  @Option(names = "--how", description = "Show window and rule beside each number.")
  private boolean how;

  @Option(names = "--details", description = "Print everything of each of several trials.")
  private boolean details;

  @Option(names = "--no-keep", description = "Do not write figures.json into trial folders.")
  private boolean noKeep;

  AnalyzeCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() throws InputProblem, UsageProblem, InterruptedException {
    if (csv && isJson()) {
      throw new UsageProblem("--csv and --json exclude each other; give one");
    }
    Map<Path, Path> assetOfFile = assets == null ? Map.of() : AssetTable.read(assets);
    Batch batch =
        services()
            .analyzeTraces()
            .run(withoutTable(), reading.choice(assetOfFile), !noKeep, new ProgressLine(screen()));
    print(batch);
    Path target = summary;
    if (target != null) {
      try {
        AtomicFile.write(target, SummaryTable.csv(batch).getBytes(StandardCharsets.UTF_8));
      } catch (IOException e) {
        throw InputProblem.of(e, target);
      }
    }
    return ExitCode.of(batch.standing());
  }

  /** What was named, less the table of assets, which a pattern such as *.csv names along. */
  private List<Path> withoutTable() {
    Path table = assets == null ? null : assets.toAbsolutePath().normalize();
    List<Path> traces =
        named.stream().filter(one -> !one.toAbsolutePath().normalize().equals(table)).toList();
    return traces.isEmpty() ? named : traces;
  }

  private void print(Batch batch) {
    if (isJson()) {
      screen().raw(ResultJson.batch(batch, false, HeatLine.account(screen(), services(), named)));
    } else if (csv) {
      // File names and messages are not ours; what goes to a file is left as it is.
      screen().raw(SafeText.of(SummaryTable.csv(batch)));
    } else {
      show(screen(), batch, how, details);
      HeatLine.print(screen(), services(), named);
    }
    if (isJson() || csv) {
      batch.failures().forEach(failed -> screen().say(failed.error()));
    }
  }

  /** A batch for people: one trial whole, several as a table, and whole where wanted. */
  static void show(Screen screen, Batch batch, boolean how, boolean details) {
    boolean alone = batch.entries().size() == 1;
    TrialText text = new TrialText(screen, how);
    for (Entry entry : batch.entries()) {
      if (!alone && !details) {
        break;
      }
      if (entry instanceof TrialResult result) {
        text.print(result);
      } else if (entry instanceof NotedTrial noted) {
        text.print(noted);
      }
      if (!alone) {
        screen.line("");
      }
    }
    if (!alone) {
      BatchText.print(screen, batch);
      batch
          .results()
          .forEach(result -> result.remarks().forEach(r -> screen.say(result.file() + ": " + r)));
    } else {
      for (FailedTrial failed : batch.failures()) {
        screen.say(failed.error());
      }
    }
    screen.flush();
  }
}
