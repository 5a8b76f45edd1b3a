package rampwright.app.usecase;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.AtomicFile;
import rampwright.app.asset.AssetFolders;
import rampwright.app.logbook.Logbook;
import rampwright.app.result.Entry;

/**
 * Enters a finished trial into the logbook at once. Nothing that goes wrong is thrown: the trial's
 * folder is the recording, the logbook only knows of it. Before it is tried the folder is marked
 * with {@link #MARK}, and the mark goes when the trial is in, so that what a full disk, a server
 * that is away or a power cut kept out is entered later.
 */
public final class LogTrial {
  /** File in a trial's folder that says it is not in the logbook yet, and why. */
  public static final String MARK = "not-logged.txt";

  private final AnalyzeTraces analyze;
  private final LogbookUse logbooks;

  public LogTrial(AnalyzeTraces analyze, LogbookUse logbooks) {
    this.analyze = analyze;
    this.logbooks = logbooks;
  }

  /** What became of a trial. */
  public enum Fate {
    /** It is in the logbook. */
    LOGGED,
    /** It was there already. */
    KNOWN,
    /** It holds no start; nothing to enter. */
    NO_START,
    /** The trial itself is at fault; it stays marked, and a person has to look. */
    NOT_READ,
    /** The logbook is at fault; the trial stays marked and is entered by a later try. */
    LATER
  }

  /**
   * What became of a trial, and a line about it.
   *
   * @param trial its folder
   * @param text for a person; without the folder's name
   */
  public record Logged(Path trial, Fate fate, String text) {}

  /**
   * Analyses a trial and enters its starts.
   *
   * @param trial folder of a trial in an asset folder
   * @param logbook file or address; null for the usual one
   */
  public Logged log(Path trial, @Nullable String logbook) {
    return log(trial, null, logbook);
  }

  /**
   * The same for one that has been analysed already.
   *
   * @param analyzed what came of it; null to have it analysed
   */
  public Logged log(Path trial, @Nullable List<Entry> analyzed, @Nullable String logbook) {
    mark(trial, "it is being entered");
    StartEntries starts = new StartEntries(InputChoice.DEFAULT);
    try {
      (analyzed == null ? analyze(trial) : analyzed).forEach(e -> starts.take(e, ""));
    } catch (UsageProblem e) {
      starts.reject(List.of(String.valueOf(e.getMessage())));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return later(trial, "the program was stopped");
    } catch (RuntimeException e) {
      starts.reject(List.of("a defect of this program: " + e));
    }
    return starts.isEmpty() ? nothing(trial, starts) : enter(trial, starts, logbook);
  }

  private List<Entry> analyze(Path trial) throws UsageProblem, InterruptedException {
    return analyze.run(List.of(trial), InputChoice.DEFAULT, false, Progress.NONE).entries();
  }

  private Logged enter(Path trial, StartEntries starts, @Nullable String logbook) {
    try {
      Logbook.Appended appended = logbooks.run(logbook, starts::enter);
      unmark(trial);
      return appended.added() == 0
          ? new Logged(trial, Fate.KNOWN, "in the logbook already")
          : new Logged(
              trial,
              Fate.LOGGED,
              appended.corrected() == 0
                  ? "entered into the logbook"
                  : "entered into the logbook as a correction");
    } catch (InputProblem | UsageProblem e) {
      return later(trial, String.valueOf(e.getMessage()));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return later(trial, "the program was stopped");
    } catch (RuntimeException e) {
      // Whoever records must go on, whatever is wrong with a logbook.
      return later(trial, "a defect of this program: " + e);
    }
  }

  private static Logged nothing(Path trial, StartEntries starts) {
    String why = String.join("; ", starts.rejected());
    if (starts.hasOnlyStartless()) {
      unmark(trial);
      return new Logged(trial, Fate.NO_START, "not in the logbook: it holds no start");
    }
    mark(trial, why);
    return new Logged(trial, Fate.NOT_READ, "not in the logbook: " + why);
  }

  private static Logged later(Path trial, String why) {
    boolean marked = mark(trial, why);
    return new Logged(
        trial,
        Fate.LATER,
        "not in the logbook yet: "
            + why
            + (marked
                ? "; it stays marked and is entered later"
                : "; it could not be marked, so enter it with: rampwright logbook import "
                    + trial));
  }

  /**
   * Tries again what is still marked; stops at the first that the logbook itself kept out.
   *
   * @param assetFolder an asset folder with its trials
   * @return what became of each that was tried
   */
  public List<Logged> retry(Path assetFolder, @Nullable String logbook) {
    List<Logged> tried = new ArrayList<>();
    for (Path trial : waiting(assetFolder)) {
      Logged logged = log(trial, logbook);
      tried.add(logged);
      if (logged.fate() == Fate.LATER) {
        break;
      }
    }
    return tried;
  }

  /** Trials of an asset folder that are marked, the oldest name first. */
  public static List<Path> waiting(Path assetFolder) {
    Path trials = assetFolder.resolve(AssetFolders.TRIALS);
    if (!Files.isDirectory(trials)) {
      return List.of();
    }
    try (Stream<Path> folders = Files.list(trials)) {
      return folders.filter(trial -> Files.exists(trial.resolve(MARK))).sorted().toList();
    } catch (IOException e) {
      // They stay marked; the next try may see them.
      return List.of();
    }
  }

  /** Marks a trial that is to be entered; false when it could not be. */
  static boolean mark(Path trial, String why) {
    try {
      AtomicFile.write(
          trial.resolve(MARK),
          ("This trial is not in the logbook yet: "
                  + why
                  + "\nIt is entered by the next recording or watch of its asset, or by: rampwright"
                  + " logbook import\n")
              .getBytes(StandardCharsets.UTF_8));
      return true;
    } catch (IOException e) {
      return false;
    }
  }

  private static void unmark(Path trial) {
    try {
      Files.deleteIfExists(trial.resolve(MARK));
    } catch (IOException e) {
      // Then it is tried once more, and found to be known.
    }
  }
}
