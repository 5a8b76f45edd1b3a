package rampwright.app.usecase;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.app.logbook.Imported;
import rampwright.app.logbook.Logbook;

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
    List<String> remarks = new ArrayList<>();
    StartEntries starts = new StartEntries();
    List<Path> trials = new ArrayList<>();
    for (Path path : named) {
      if (isTable(path)) {
        try {
          StartTable table = StartTable.read(path);
          starts.take(table.entries());
          starts.reject(table.problems());
          remarks.addAll(table.remarks());
        } catch (InputProblem e) {
          starts.reject(List.of(String.valueOf(e.getMessage())));
        }
      } else {
        trials.add(path);
      }
    }
    if (!trials.isEmpty()) {
      analyze.run(trials, choice, false, progress).entries().forEach(starts::take);
    }
    return logbooks.run(
        logbook,
        book -> {
          Logbook.Appended appended = starts.enter(book);
          return new Imported(
              appended.added(), appended.known(), appended.corrected(), starts.rejected(), remarks);
        });
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
