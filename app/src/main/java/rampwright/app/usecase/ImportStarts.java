package rampwright.app.usecase;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import rampwright.app.asset.Asset;
import rampwright.app.asset.AssetFile;
import rampwright.app.envelope.Limit;
import rampwright.app.logbook.AssetLimit;
import rampwright.app.logbook.Imported;
import rampwright.app.logbook.LogEntry;
import rampwright.app.logbook.Logbook;
import rampwright.app.logbook.LogbookException;
import rampwright.app.result.Batch;
import rampwright.app.result.Entry;
import rampwright.app.result.FailedTrial;
import rampwright.app.result.NotedTrial;
import rampwright.app.result.TrialResult;

/** Enters starts into the logbook: asset folders, trial folders, traces, tables of figures. */
public final class ImportStarts {
  private final AnalyzeTraces analyze;
  private final LogbookUse logbooks;

  public ImportStarts(AnalyzeTraces analyze, LogbookUse logbooks) {
    this.analyze = analyze;
    this.logbooks = logbooks;
  }

  /** Enters what is named; what is wrong is left out and named, the rest is kept. */
  public Imported run(
      List<Path> named, InputChoice choice, @Nullable String logbook, Progress progress)
      throws InputProblem, UsageProblem, InterruptedException {
    List<String> rejected = new ArrayList<>();
    List<String> remarks = new ArrayList<>();
    List<LogEntry> entries = new ArrayList<>();
    Set<AssetFile> assets = new LinkedHashSet<>();
    List<Path> trials = new ArrayList<>();
    for (Path path : named) {
      if (isTable(path)) {
        try {
          StartTable table = StartTable.read(path);
          entries.addAll(table.entries());
          rejected.addAll(table.problems());
          remarks.addAll(table.remarks());
        } catch (InputProblem e) {
          rejected.add(String.valueOf(e.getMessage()));
        }
      } else {
        trials.add(path);
      }
    }
    if (!trials.isEmpty()) {
      Batch batch = analyze.run(trials, choice, false, progress);
      for (Entry entry : batch.entries()) {
        trial(entry, entries, assets, rejected);
      }
    }
    return logbooks.run(
        logbook,
        book -> {
          for (AssetFile asset : assets) {
            limits(book, asset.asset());
          }
          Logbook.Appended appended = book.append(entries);
          return new Imported(
              appended.added(), appended.known(), appended.corrected(), rejected, remarks);
        });
  }

  private static void trial(
      Entry entry, List<LogEntry> entries, Set<AssetFile> assets, List<String> rejected) {
    if (entry instanceof FailedTrial failed) {
      rejected.add(failed.error());
      return;
    }
    try {
      List<LogEntry> logged = LoggedTrials.of(entry);
      if (logged.isEmpty()) {
        rejected.add(entry.file() + ": holds no start");
      }
      entries.addAll(logged);
      AssetFile asset =
          entry instanceof TrialResult result
              ? result.asset()
              : entry instanceof NotedTrial noted ? noted.asset() : null;
      if (asset != null) {
        assets.add(asset);
      }
    } catch (InputProblem e) {
      rejected.add(String.valueOf(e.getMessage()));
    }
  }

  /** The envelope's limits go along, so that a trend knows them without the folder. */
  private static void limits(Logbook book, Asset asset) throws LogbookException {
    var present = book.limits(asset.id());
    for (Limit limit : asset.envelope().limits()) {
      AssetLimit noted =
          new AssetLimit(
              asset.id(), limit.figure().key(), optional(limit.min()), optional(limit.max()));
      if (!noted.equals(present.get(noted.figure()))) {
        book.append(noted);
      }
    }
  }

  private static OptionalDouble optional(@Nullable Double value) {
    return value == null ? OptionalDouble.empty() : OptionalDouble.of(value);
  }

  /** A table of starts names an asset in its header; a trace does not. */
  private static boolean isTable(Path path) {
    String name = String.valueOf(path.getFileName()).toLowerCase(Locale.ROOT);
    if (!Files.isRegularFile(path) || !name.endsWith(".csv")) {
      return false;
    }
    try (var lines = Files.lines(path)) {
      String header = lines.findFirst().orElse("").toLowerCase(Locale.ROOT);
      List<String> cells = List.of(header.replace("\ufeff", "").split("[,;]"));
      return cells.stream().map(String::strip).anyMatch("asset"::equals);
    } catch (IOException | UncheckedIOException e) {
      return false;
    }
  }
}
