package rampwright.app.usecase;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;
import org.jspecify.annotations.Nullable;
import rampwright.app.logbook.Imported;
import rampwright.app.logbook.LogEntry;
import rampwright.app.logbook.Logbook;
import rampwright.app.logbook.LogbookException;
import rampwright.app.result.Entry;

/**
 * Enters starts into the logbook: asset folders, trial folders, traces, tables of figures. Part
 * after part, each whole or not at all; what was entered before an end, a power cut or a full disk
 * stays, and the same import goes on after it without analysing it again.
 */
public final class ImportStarts {
  /** Trials entered at a time: enough to share the cost of being on disk for certain. */
  private static final int TRIALS_AT_A_TIME = 64;

  /** Their traces are in memory together. */
  private static final long BYTES_AT_A_TIME = 48L << 20;

  private static final int ROWS_AT_A_TIME = 5000;

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
    return logbooks.run(logbook, book -> new Run(book, choice, progress).of(named));
  }

  /** One import under way. */
  private final class Run {
    private final Logbook book;
    private final InputChoice choice;
    private final Progress progress;
    private final List<String> rejected = new ArrayList<>();
    private final List<String> remarks = new ArrayList<>();
    private int added;
    private int known;
    private int corrected;

    Run(Logbook book, InputChoice choice, Progress progress) {
      this.book = book;
      this.choice = choice;
      this.progress = progress;
    }

    Imported of(List<Path> named) throws LogbookException, InterruptedException {
      List<Path> folders = new ArrayList<>();
      for (Path path : named) {
        if (isTable(path)) {
          table(path);
        } else {
          folders.add(path);
        }
      }
      if (!folders.isEmpty()) {
        trials(new FindTrials(choice, false).in(folders));
      }
      return new Imported(added, known, corrected, rejected, remarks);
    }

    private void table(Path path) throws LogbookException {
      try {
        StartTable table = StartTable.read(path);
        rejected.addAll(table.problems());
        remarks.addAll(table.remarks());
        List<LogEntry> entries = table.entries();
        for (int from = 0; from < entries.size(); from += ROWS_AT_A_TIME) {
          int to = Math.min(entries.size(), from + ROWS_AT_A_TIME);
          count(book.append(entries.subList(from, to)));
        }
      } catch (InputProblem e) {
        rejected.add(String.valueOf(e.getMessage()));
      }
    }

    private void trials(List<TrialJob> jobs) throws LogbookException, InterruptedException {
      progress.begun(jobs.size());
      try {
        List<TrialJob> part = new ArrayList<>();
        List<String> bases = new ArrayList<>();
        long bytes = 0;
        for (TrialJob job : jobs) {
          String basis = TrialBasis.of(job, choice, analyze.toolVersion());
          OptionalInt before = basis.isEmpty() ? OptionalInt.empty() : book.lookedAt(basis);
          if (before.isPresent()) {
            known += before.getAsInt();
            progress.done(job.shown(), false);
            continue;
          }
          part.add(job);
          bases.add(basis);
          bytes += TrialBasis.bytes(job);
          if (part.size() >= TRIALS_AT_A_TIME || bytes >= BYTES_AT_A_TIME) {
            enter(part, bases);
            part.clear();
            bases.clear();
            bytes = 0;
          }
        }
        enter(part, bases);
      } finally {
        progress.ended();
      }
    }

    private void enter(List<TrialJob> part, List<String> bases)
        throws LogbookException, InterruptedException {
      if (part.isEmpty()) {
        return;
      }
      List<Entry> entries = analyze.entries(part, choice, progress);
      StartEntries starts = new StartEntries(choice);
      for (int i = 0; i < entries.size(); i++) {
        starts.take(entries.get(i), bases.get(i));
      }
      count(starts.enter(book));
      rejected.addAll(starts.rejected());
    }

    private void count(Logbook.Appended appended) {
      added += appended.added();
      known += appended.known();
      corrected += appended.corrected();
    }
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
