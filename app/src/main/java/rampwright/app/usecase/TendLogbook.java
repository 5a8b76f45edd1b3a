package rampwright.app.usecase;

import java.nio.file.Files;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import rampwright.app.logbook.LogEvent;
import rampwright.app.logbook.Logbook;

/** Keeps a logbook in order: verifies, backs up, takes a person's notes. */
public final class TendLogbook {
  private final LogbookUse logbooks;

  public TendLogbook(LogbookUse logbooks) {
    this.logbooks = logbooks;
  }

  /** Recomputes every hash. */
  public Logbook.Verified verify(@Nullable String logbook)
      throws InputProblem, UsageProblem, InterruptedException {
    return logbooks.run(logbook, Logbook::verify);
  }

  /**
   * Copies the logbook to a new file while it is in use.
   *
   * @throws UsageProblem where the target is already there: a backup overwrites nothing
   */
  public void backup(@Nullable String logbook, Path target)
      throws InputProblem, UsageProblem, InterruptedException {
    if (Files.exists(target)) {
      throw new UsageProblem(target + ": is already there; name a new file for the backup");
    }
    logbooks.run(
        logbook,
        book -> {
          book.backup(target);
          return true;
        });
  }

  /**
   * Notes an event of an asset.
   *
   * @throws UsageProblem where the asset has no starts: most likely it is misspelt
   */
  public void note(@Nullable String logbook, LogEvent event)
      throws InputProblem, UsageProblem, InterruptedException {
    logbooks.run(
        logbook,
        book -> {
          LogbookUse.demandKnown(event.asset(), book.assets());
          book.append(event);
          return true;
        });
  }
}
